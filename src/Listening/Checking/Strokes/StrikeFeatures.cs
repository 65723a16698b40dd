using Harkbook.Listening.Checking.Weighing;

namespace Harkbook.Listening.Checking.Strokes;

/// <summary>What speaks for nothing being struck where much is heard to start and nothing is written.</summary>
/// <param name="guitar">When the guitar is written to start anything, rising, in seconds.</param>
/// <param name="others">When anyone else is.</param>
internal sealed class StrikeFeatures(StrikeCurve curve, HeardStarts starts, double[] guitar, double[] others)
{
    /// <summary>A strike that near a written start is that start, in seconds.</summary>
    public const double Same = 0.08;

    private const double Apart = 0.05, Far = 0.25, Reach = 0.03;

    /// <summary>Strikes between two times that nothing written for the guitar explains.</summary>
    public IEnumerable<(double Time, Feature[] Features)> Unwritten(double from, double to) =>
        curve.Peaks(from, to, Apart).Where(p => Distance(guitar, p.Time) > Same).Select(p => (p.Time, Of(p.Time, p.Log)));

    private Feature[] Of(double time, double strike)
    {
        var pitches = Enumerable.Range(starts.Notes.LowestMidi, starts.Notes.Pitches)
            .Select(m => starts.At(m, time, Reach)).OrderDescending().Take(3).ToArray();
        return
        [
            new("strike", strike),
            new("strongest", pitches[0]),
            new("second", pitches[1]),
            new("third", pitches[2]),
            new("far", Math.Min(Far, Distance(guitar, time)) / Far),
            new("another", Distance(others, time) <= 1.5 * Same ? 1 : 0),
        ];
    }

    private static double Distance(double[] times, double time)
    {
        var found = Array.BinarySearch(times, time);
        var place = found < 0 ? ~found : found;
        return Math.Min(place < times.Length ? times[place] - time : double.PositiveInfinity, place > 0 ? time - times[place - 1] : double.PositiveInfinity);
    }
}
