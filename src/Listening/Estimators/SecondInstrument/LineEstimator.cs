using System.Collections.Immutable;
using Harkbook.Audio.Signals;
using Harkbook.Listening.Estimators.Notes;
using Harkbook.Listening.Evidence;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>
/// Looks for lines that aren't plucked: harmonica, voice, whistle or fiddle with the guitar, several perhaps. A network says in each
/// frame what sounds each pitch; what it says is joined into notes, notes into phrases, phrases of one kind into a line. It says that
/// the guitar is alone where too little of that is found.
/// </summary>
public sealed class LineEstimator
{
    internal static Seconds Hop => LogSpectrum.Hop;

    /// <param name="sound">One channel or two; place in the stereo picture helps where there are two.</param>
    /// <param name="a4">The recording's own reference pitch.</param>
    /// <param name="keys">The song's keys, which make some harmonicas likelier.</param>
    /// <param name="progress">0 to 1.</param>
    public HeardLines Estimate(ISound sound, Hertz a4, ImmutableArray<HeardKey> keys, IProgress<double>? progress, CancellationToken ct)
    {
        using var scan = new LineScan();
        SpectraScan.Run(sound, a4, [scan], progress, ct);
        return Of(scan.Cells, keys);
    }

    /// <summary>From what the network said of each frame.</summary>
    /// <param name="harpKey">The harmonica's key where a person claims it; a harmonica is then what plays the reeds.</param>
    /// <param name="absent">Kinds that a person says aren't there.</param>
    internal static HeardLines Of(LineCells cells, ImmutableArray<HeardKey> keys, PitchName? harpKey = null, ImmutableArray<LineKind> absent = default)
    {
        var stretches = new LineTracer(cells).Trace();
        var present = harpKey is null ? LinePresence.Of(stretches, cells.Frames) : 1;
        if (present < 0.5)
            return new(1 - present, []);
        var lines = LineLayers.Of(stretches, keys, present, harpKey is null ? null : LineKind.Harmonica, absent)
            .Select(l => LineOf(l, keys, harpKey, cells.Frames));
        return new(1 - present, [.. lines.OrderByDescending(l => l.Kind.Confidence)]);
    }

    private static HeardLine LineOf(LineLayer layer, ImmutableArray<HeardKey> keys, PitchName? harpKey, int frames)
    {
        var isHarp = layer.Kind.Best == LineKind.Harmonica;
        var stretches = isHarp ? layer.Stretches : LineNotes.OneAtATime(layer.Stretches);
        var line = new HeardLine { Kind = layer.Kind, Contour = LineNotes.ContourOf(stretches, frames), Notes = LineNotes.Of(stretches) };
        return isHarp ? OnHarp(line, keys, harpKey) : line;
    }

    private static HeardLine OnHarp(HeardLine line, ImmutableArray<HeardKey> keys, PitchName? claimed)
    {
        var heard = new HarpFinder(keys).Rank(line.Notes);
        var harp = claimed is { } key ? Told.Only(heard.Candidates.Select(c => c.Value).First(h => h.Key.PitchClass == key.PitchClass) with { Key = key })
            : heard;
        var path = new HolePath(Harmonica.Richter(harp.Best.Key), harp.Best.Position);
        return line with { Harp = harp, Notes = path.Place(line.Notes) };
    }
}
