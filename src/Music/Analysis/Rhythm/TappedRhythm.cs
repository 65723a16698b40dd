using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Rhythm;

/// <summary>
/// Taps laid on the bars of a song whose anchors say when each bar sounds. Each bar takes the coarsest grid that its taps lie near:
/// divisions of the beat, halves of those, or thirds of a simple beat. What all taps are late or early together (up to 50 ms) is taken
/// for the hand and taken off. How the grids are weighed is our judgement.
/// </summary>
/// <param name="Lateness">The taps' median distance after their places; 0 where it was too much to be the hand's.</param>
public sealed record TappedRhythm(ImmutableArray<PlacedTap> Taps, Seconds Lateness)
{
    private const double MostLateness = 0.05;
    private const double FinerCosts = 0.03;

    /// <summary>Bars without a tap that still belong to what was tapped through: a breath or a fill, not a verse left out.</summary>
    private const int MostSilentBars = 2;

    /// <summary>Taps before the first bar or after the last are left out, and of two at one place the later.</summary>
    public static TappedRhythm Of(Song song, IEnumerable<Tap> taps)
    {
        var clock = new SongClock(song);
        Bar[] bars = [.. song.Bars];
        Tap[] sorted = [.. taps.OrderBy(t => t.At)];
        var rough = Placed(sorted, default, clock, bars);
        var lateness = Median([.. rough.Select(t => t.Off.Value)]);
        var late = Seconds.FromSeconds(Math.Abs(lateness) <= MostLateness ? lateness : 0);
        return new(Placed(sorted, late, clock, bars), late);
    }

    /// <summary>
    /// The song file with these syllables: in the tapped bars and the silent ones between them, at most <see cref="MostSilentBars"/> on end;
    /// everything else that is sung stays. A syllable lasts until the next, at most a bar.
    /// </summary>
    public SongDocument Onto(SongDocument document)
    {
        var song = document.Song ?? throw new ArgumentException("A file with mistakes has no bars to put syllables into.", nameof(document));
        var edited = document;
        for (var i = 0; i < song.Sections.Length; i++)
        {
            var bars = song.Sections[i].Bars;
            foreach (var (first, last) in Stretches(bars))
                edited = edited.WithSung(i, first, [.. Sung(bars, first, last)]);
        }
        return edited;
    }

    /// <summary>Runs of a section's bars (1 = its first) that were tapped through, and the one after where a syllable still sounds in it
    /// and nothing else does.</summary>
    private IEnumerable<(int First, int Last)> Stretches(ImmutableArray<Bar> bars)
    {
        int[] tapped = [.. Enumerable.Range(1, bars.Length).Where(n => Taps.Any(t => t.Bar == bars[n - 1].Number))];
        for (var i = 0; i < tapped.Length; i++)
        {
            var first = tapped[i];
            while (i + 1 < tapped.Length && tapped[i + 1] - tapped[i] <= MostSilentBars + 1)
                i++;
            var isFree = tapped[i] < bars.Length && bars[tapped[i]].Sung.IsEmpty;
            yield return (first, tapped[i] + (isFree ? 1 : 0));
        }
    }

    private IEnumerable<ImmutableArray<Claim<string>>> Sung(ImmutableArray<Bar> bars, int first, int last)
    {
        var stretch = bars[(first - 1)..last];
        var start = Beats.Zero;
        var starts = stretch.ToDictionary(b => b.Number, b => { var at = start; start += b.Meter.BarLength; return at; });
        Beats[] onsets = [.. Taps.Where(t => starts.ContainsKey(t.Bar)).Select(t => starts[t.Bar] + t.At)];
        return stretch.Select(bar => Taps.Where(t => t.Bar == bar.Number).Select(t => Sung(t, starts[bar.Number]
            + t.At, onsets, bar.Meter)).ToImmutableArray());
    }

    private static Claim<string> Sung(PlacedTap tap, Beats at, Beats[] onsets, Meter meter)
    {
        var next = onsets.Where(o => o > at).Select(o => o - at).DefaultIfEmpty(meter.BarLength).First();
        return new(tap.At, next < meter.BarLength ? next : meter.BarLength, tap.Syllable, Standing.Decided);
    }

    private static ImmutableArray<PlacedTap> Placed(Tap[] taps, Seconds late, SongClock clock, Bar[] bars)
    {
        var places = taps.Select(t => (Tap: t, Place: clock.PlaceOf(t.At - late)))
            .Where(t => t.Place.BeatInBar > -0.5 && t.Place.BeatInBar < bars[t.Place.BarNumber - 1].Meter.BarLength.Value).ToArray();
        return [.. places.GroupBy(t => t.Place.BarNumber).SelectMany(g => InBar([.. g], bars, clock, late)).DistinctBy(t => (t.Bar, t.At))];
    }

    private static IEnumerable<PlacedTap> InBar((Tap Tap, (int BarNumber, double BeatInBar) Place)[] taps, Bar[] bars, SongClock clock, Seconds late)
    {
        var bar = bars[taps[0].Place.BarNumber - 1];
        var grid = Grid(bar.Meter, [.. taps.Select(t => t.Place.BeatInBar)]);
        foreach (var (tap, place) in taps)
        {
            var at = Beats.Fraction(Math.Max(0, (int)Math.Round(place.BeatInBar * grid)), grid);
            var off = tap.At - late - clock.TimeOf(bar.Number, at);
            if (at < bar.Meter.BarLength)
                yield return new(bar.Number, at, tap.Syllable, off);
            else if (bar.Number < bars.Length)
                yield return new(bar.Number + 1, at - bar.Meter.BarLength, tap.Syllable, off);
        }
    }

    private static int Grid(Meter meter, double[] beats)
    {
        int[] grids = meter.IsCompound ? [3, 6] : [2, 3, 4];
        return grids.MinBy(g => beats.Average(b => Math.Abs(b - Math.Round(b * g) / g)) + (g == grids[0] ? 0 : FinerCosts)
            + (beats.Select(b => Math.Round(b * g)).Distinct().Count() < beats.Length ? 1 : 0));
    }

    private static double Median(double[] values)
    {
        Array.Sort(values);
        return values.Length == 0 ? 0 : (values[(values.Length - 1) / 2] + values[values.Length / 2]) / 2;
    }
}
