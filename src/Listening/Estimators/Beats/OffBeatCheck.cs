using System.Collections.Immutable;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// A second look at which half of the beat is the beat, once notes are known. A player's thumb and a bass keep to the beat while
/// chords come early or late (common practice); where low notes struck alone lie between the beats instead, every beat is moved by
/// half a beat.
/// </summary>
public static class OffBeatCheck
{
    /// <summary>Notes from here up are not low: D3 + 2, the fretted notes of a guitar's two lowest strings and a bass.</summary>
    private const int LowBelowMidi = 52;

    /// <summary>Onsets this close together are one stroke.</summary>
    private const double Stroke = 0.06;

    /// <summary>How near to a beat, in beats, an onset counts for it.</summary>
    private const double Reach = 0.15;

    /// <summary>A stroke of more notes is a chord, and its lowest note tells nothing.</summary>
    private const int MostTogether = 2;

    /// <summary>So much weight on either side is not yet a reason (two notes that last a beat).</summary>
    private const double Doubt = 2;

    /// <summary>
    /// How many times more low weight between beats than on them moves the beats. Chosen on 48 pieces of bench/pieces (seeds 1 and 2): where beats were
    /// right it was 2.6 times at most, where they were off-beats 7 times at least.
    /// </summary>
    private const double Enough = 4;

    private const int FewestBeats = 4;

    /// <param name="beats">Rising.</param>
    /// <param name="notes">Any order.</param>
    /// <returns>The beats themselves, or beats half a beat later.</returns>
    public static ImmutableArray<HeardBeat> Apply(ImmutableArray<HeardBeat> beats, ImmutableArray<HeardNote> notes)
    {
        if (beats.Length < FewestBeats)
            return beats;
        double[] on = [.. beats.Select(b => b.Time.Value)];
        double[] between = [.. on.Zip(on.Skip(1), (a, b) => (a + b) / 2)];
        var period = (on[^1] - on[0]) / (on.Length - 1);
        var low = LowStrokes(notes, period);
        var (kept, moved) = (WeightNear(low, on, period), WeightNear(low, between, period));
        return moved + Doubt > Enough * (kept + Doubt) ? Moved(beats, between) : beats;
    }

    /// <summary>Low notes struck alone or with one other: when, and a weight by how many and how long.</summary>
    private static List<(double Time, double Weight)> LowStrokes(ImmutableArray<HeardNote> notes, double period)
    {
        var strokes = new List<(double, double)>();
        var sorted = notes.OrderBy(n => n.Onset).ToArray();
        for (int from = 0, to; from < sorted.Length; from = to)
        {
            to = from + 1;
            while (to < sorted.Length && (sorted[to].Onset - sorted[from].Onset).Value < Stroke)
                to++;
            var lowest = sorted[from..to].MinBy(n => n.Midi)!;
            if (lowest.Midi < LowBelowMidi && to - from <= MostTogether)
                strokes.Add((lowest.Onset.Value, (to - from) * Math.Min((lowest.End - lowest.Onset).Value, period) / period));
        }
        return strokes;
    }

    private static double WeightNear(List<(double Time, double Weight)> strokes, double[] grid, double period) =>
        strokes.Where(s => Distance(grid, s.Time) < Reach * period).Sum(s => s.Weight);

    private static double Distance(double[] grid, double time)
    {
        var after = Array.BinarySearch(grid, time);
        if (after >= 0)
            return 0;
        after = ~after;
        return Math.Min(after < grid.Length ? grid[after] - time : double.MaxValue, after > 0 ? time - grid[after - 1] : double.MaxValue);
    }

    /// <summary>A chord that comes early sounds between two beats and belongs to the later one, so places in the bar move later too.</summary>
    private static ImmutableArray<HeardBeat> Moved(ImmutableArray<HeardBeat> beats, double[] between) =>
        [.. between.Select((time, i) => beats[i] with { Time = Seconds.FromSeconds(time), Confidence = Math.Min(0.5, beats[i].Confidence) })];
}
