using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Rhythm;

/// <summary>
/// Anchors from tapped bar lines and beats. Section by section the fewest bar lines are chosen between which time may run straight and pass
/// every tap within <see cref="Tolerance"/>; their times are then those of the lines that pass all taps most nearly (least squares), so that
/// no single slip of the hand moves a bar. What all taps are late together can't be told from them.
/// </summary>
/// <param name="Anchors">Bars of the song (one past the last is its end) and their times, rising.</param>
/// <param name="Taps">Those used: from the first tapped bar line to the last.</param>
/// <param name="MeanOff">How far a tap lies from the lines, on average.</param>
public sealed record TappedBars(ImmutableArray<(int Bar, Seconds At)> Anchors, ImmutableArray<TappedBeat> Taps, Seconds MeanOff)
{
    /// <summary>Twice what a practised tapper's taps stray, about 20 ms in Repp 2005 (docs/sources.md).</summary>
    public const double Tolerance = 0.04;

    /// <summary>What keeps taps from being laid on a song, in words; null where nothing does.</summary>
    public static string? Problem(Song song, IEnumerable<TappedBeat> taps)
    {
        Bar[] bars = [.. song.Bars];
        TappedBeat[] sorted = [.. taps.OrderBy(t => t.At)];
        foreach (var (tap, i) in sorted.Select((t, i) => (t, i)))
        {
            if (tap.Bar < 1 || tap.Bar > bars.Length + 1 || tap.Beat >= (tap.Bar <= bars.Length ? bars[tap.Bar - 1].Meter.BeatsPerBar : 1))
                return $"{tap} isn't in the song, which has bars 1 to {bars.Length} (|{bars.Length + 1} is its end)";
            if (i > 0 && (tap.At <= sorted[i - 1].At || (tap.Bar, tap.Beat).CompareTo((sorted[i - 1].Bar, sorted[i - 1].Beat)) <= 0))
                return $"{tap} at {TimeText.Write(tap.At)} doesn't come after {sorted[i - 1]} at {TimeText.Write(sorted[i - 1].At)}";
        }
        return sorted.Any(t => t.Beat == 0) ? null : "no bar line is among the beats, and a bar is tied to a time by its line";
    }

    /// <param name="taps">In which <see cref="Problem"/> sees nothing.</param>
    public static TappedBars Of(Song song, IEnumerable<TappedBeat> taps)
    {
        int[] starts = [.. song.Bars.Aggregate(new List<int> { 0 }, (sums, bar) => [.. sums, sums[^1] + bar.Meter.BeatsPerBar])];
        TappedBeat[] sorted = [.. taps.OrderBy(t => t.At)];
        var (first, last) = (Array.FindIndex(sorted, t => t.Beat == 0), Array.FindLastIndex(sorted, t => t.Beat == 0));
        sorted = sorted[first..(last + 1)];
        var times = sorted.ToDictionary(t => starts[t.Bar - 1] + t.Beat, t => t.At.Value);
        int[] knots = [.. Sections(song).SelectMany(s => Thinned(sorted.Where(t => t.Beat == 0 && t.Bar >= s.First
            && t.Bar <= s.End).Select(t => starts[t.Bar - 1]), times)).Distinct().Order()];
        var fitted = LinearSpline.Fit(knots, times);
        var off = times.Average(t => Math.Abs(t.Value - LinearSpline.At(knots, fitted, t.Key)));
        return new([.. knots.Select((k, i) => (Array.IndexOf(starts, k) + 1, Seconds.FromSeconds(Math.Round(Math.Max(0, fitted[i]), 3))))], [.. sorted],
            Seconds.FromSeconds(off));
    }

    /// <summary>The song with these anchors in place of those of all tapped bars; outside them its own stay.</summary>
    public SongDocument Onto(SongDocument document) => document.WithAnchors(Taps[0].Bar, Taps[^1].Bar, Anchors);

    /// <summary>Bars of each section, its end among them, which is the next one's start.</summary>
    private static IEnumerable<(int First, int End)> Sections(Song song) =>
        song.Sections.Where(s => !s.Bars.IsEmpty).Select(s => (s.Bars[0].Number, s.Bars[^1].Number + 1));

    private static IEnumerable<int> Thinned(IEnumerable<int> lines, Dictionary<int, double> times)
    {
        int[] candidates = [.. lines];
        if (candidates.Length == 0)
            return [];
        var from = candidates[0];
        ImmutableArray<double> all = [.. Enumerable.Range(from, candidates[^1] - from + 1).Select(b => times.GetValueOrDefault(b))];
        return AnchorThinning.Choose(all, [.. candidates.Select(c => c - from)], b => times.ContainsKey(from + b), Tolerance).Select(i => candidates[i]);
    }
}
