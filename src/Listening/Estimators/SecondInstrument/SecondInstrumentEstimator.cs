using System.Collections.Immutable;
using Harkbook.Audio.Signals;
using Harkbook.Listening.Estimators.Notes;
using Harkbook.Music.Instruments;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>
/// Looks for a line that isn't plucked: harmonica, voice, whistle or fiddle with the guitar. A network says in each frame what sounds
/// each pitch; what it says is joined into notes. It says that there is none where too little of that is found.
/// </summary>
public sealed class SecondInstrumentEstimator
{
    internal static Seconds Hop => LogSpectrum.Hop;

    /// <param name="sound">One channel or two; place in the stereo picture helps where there are two.</param>
    /// <param name="a4">The recording's own reference pitch.</param>
    /// <param name="keys">The song's keys, which make some harmonicas likelier.</param>
    /// <param name="progress">0 to 1.</param>
    public HeardSecondInstrument Estimate(ISound sound, Hertz a4, ImmutableArray<HeardKey> keys, IProgress<double>? progress, CancellationToken ct)
    {
        using var scan = new LineScan();
        SpectraScan.Run(sound, a4, [scan], progress, ct);
        return Estimate(scan.Cells, sound.Duration, keys);
    }

    /// <summary>From what the network said.</summary>
    internal HeardSecondInstrument Estimate(LineCell[][] cells, Seconds length, ImmutableArray<HeardKey> keys)
    {
        var stretches = new LineTracer(cells).Trace();
        var kind = LineKinds.Of(stretches, keys, length);
        if (kind.Best == SecondInstrumentKind.None)
            return new() { Kind = kind, Contour = LineNotes.ContourOf([], cells.Length) };
        var line = kind.Best == SecondInstrumentKind.Harmonica ? stretches : LineNotes.OneAtATime(stretches);
        var found = new HeardSecondInstrument { Kind = kind, Contour = LineNotes.ContourOf(line, cells.Length), Notes = LineNotes.Of(line) };
        return kind.Best == SecondInstrumentKind.Harmonica && !found.Notes.IsEmpty ? OnHarp(found, keys) : found;
    }

    private static HeardSecondInstrument OnHarp(HeardSecondInstrument found, ImmutableArray<HeardKey> keys)
    {
        var harp = new HarpFinder(keys).Rank(found.Notes);
        var path = new HolePath(Harmonica.Richter(harp.Best.Key), harp.Best.Position);
        return found with { Harp = harp, Notes = path.Place(found.Notes) };
    }
}
