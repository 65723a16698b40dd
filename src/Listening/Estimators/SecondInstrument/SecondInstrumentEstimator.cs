using System.Collections.Immutable;
using Harkbook.Audio.Signals;
using Harkbook.Music.Instruments;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>
/// Looks for a line that isn't plucked: harmonica, voice, whistle or fiddle with the guitar. Pitches are followed through time,
/// a small network weighs each for signs of a plucked string (energy that decays) or of another source, and what is likely
/// another's makes the line. It says that there is none where too little of that is found.
/// </summary>
public sealed class SecondInstrumentEstimator
{
    private readonly StrandWeigher weigher;

    public SecondInstrumentEstimator()
        : this(StrandWeigher.Shipped)
    {
    }

    internal SecondInstrumentEstimator(StrandWeigher weigher) => this.weigher = weigher;

    /// <param name="sound">One channel or two; place in the stereo picture helps where there are two.</param>
    /// <param name="a4">The recording's own reference pitch.</param>
    /// <param name="keys">The song's keys, which make some harmonicas likelier.</param>
    /// <param name="progress">0 to 1.</param>
    public HeardSecondInstrument Estimate(ISound sound, Hertz a4, ImmutableArray<HeardKey> keys, IProgress<double>? progress, CancellationToken ct)
    {
        var heard = sound.At(SecondInstrumentScan.Rate);
        var strands = SecondInstrumentScan.Strands(heard, a4, progress, ct);
        var weighed = weigher.Weigh(strands, ct);
        var kind = KindWeighing.Of(weighed, heard.Duration);
        var frames = 1 + heard.Length / SecondInstrumentScan.HopSamples;
        if (kind.Best == SecondInstrumentKind.None)
            return new() { Kind = kind, Contour = LineNotes.ContourOf([], frames) };
        var line = LinePicker.Pick(weighed, oneAtATime: kind.Best != SecondInstrumentKind.Harmonica);
        var found = new HeardSecondInstrument { Kind = kind, Contour = LineNotes.ContourOf(line, frames), Notes = LineNotes.Of(line) };
        return kind.Best == SecondInstrumentKind.Harmonica && !found.Notes.IsEmpty ? OnHarp(found, keys) : found;
    }

    private static HeardSecondInstrument OnHarp(HeardSecondInstrument found, ImmutableArray<HeardKey> keys)
    {
        var harp = new HarpFinder(keys).Rank(found.Notes);
        var path = new HolePath(Harmonica.Richter(harp.Best.Key), harp.Best.Position);
        return found with { Harp = harp, Notes = path.Place(found.Notes) };
    }
}
