using System.Collections.Immutable;
using Harkbook.Audio.Signals;
using Harkbook.Listening.Evidence;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Notes;

/// <summary>Finds the notes in a recording.</summary>
public interface INoteEstimator
{
    /// <param name="mono">Any rate.</param>
    /// <param name="a4">The recording's own reference pitch; MIDI numbers count from it.</param>
    /// <param name="progress">From 0 to 1.</param>
    NoteEstimate Estimate(ISound mono, Hertz a4, IProgress<double>? progress, CancellationToken ct);
}

/// <summary>Notes by onset, and the evidence that they were picked from.</summary>
public sealed record NoteEstimate(ImmutableArray<HeardNote> Notes, NotePosteriorgram Evidence);
