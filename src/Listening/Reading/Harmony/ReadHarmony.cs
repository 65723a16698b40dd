using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Chords;

namespace Harkbook.Listening.Reading.Harmony;

/// <summary>Keys and chords as they were read, and how likely each chord is anywhere.</summary>
/// <param name="Keys">Without gaps over the whole recording; never empty.</param>
/// <param name="Chords">Without gaps over all that was weighed; empty where nothing was.</param>
/// <param name="Posteriors">Null where nothing was weighed.</param>
public sealed record ReadHarmony(ImmutableArray<HeardKey> Keys, ImmutableArray<HeardChord> Chords, ChordPosteriors? Posteriors)
{
    /// <summary>What the spans say, as it was before any claim.</summary>
    internal WeighedChords Weighed { get; init; } = new([], [], [], [], null);
}
