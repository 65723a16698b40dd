using System.Collections.Immutable;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.SecondInstruments;

/// <summary>
/// How a song's harmonica part breathes: how much is blown and drawn, where the breath turns, where rests let the player breathe,
/// and what is too long for one breath under stated assumptions. Times are those of the recording.
/// </summary>
/// <param name="BarsOut">How many bars' worth of sound is blown: the notes' lengths over their bars' lengths.</param>
/// <param name="BarsIn">How many bars' worth is drawn.</param>
/// <param name="Runs">Stretches of one direction, in playing order.</param>
/// <param name="Passages">Stretches between rests long enough to breathe in.</param>
public sealed record BreathPlan(double BarsOut, double BarsIn, ImmutableArray<BreathRun> Runs, ImmutableArray<BreathPassage> Passages,
    BreathPlanOptions Options)
{
    /// <summary>The longest stretch of one direction; null when nothing is played.</summary>
    public BreathRun? Longest => Runs.MaxBy(r => r.Sounding);

    /// <summary>Stretches of one direction that sound longer than a breath is taken to last.</summary>
    public IEnumerable<BreathRun> TooLong => Runs.Where(r => r.Sounding > Options.LongestBreath);

    /// <summary>Passages without a rest in which one direction outweighs the other by more than a breath.</summary>
    public IEnumerable<BreathPassage> Unbalanced => Passages.Where(p => Math.Abs(p.Net.Value) > Options.LongestBreath.Value);

    /// <summary>How often the breath turns with no rest between.</summary>
    public int Turns => Runs.Count(r => r.RestAfter < Options.ShortestRest);

    /// <param name="bars">Which bars to look at, by number; all of the song's when null.</param>
    public static BreathPlan Of(Song song, Func<Bar, bool>? bars = null, BreathPlanOptions? options = null)
    {
        options ??= BreathPlanOptions.Usual;
        var clock = new SongClock(song);
        var breaths = song.Bars.Where(bars ?? (_ => true)).SelectMany(b => Breaths(b, clock)).ToArray();
        var runs = Joined(breaths, options.ShortestRest);
        return new(WorthOf(breaths, Breath.Blow), WorthOf(breaths, Breath.Draw), runs, Passed(runs, options.ShortestRest), options);
    }

    private sealed record Sounded(Breath Breath, SongPlace Place, double BarsWorth, Seconds Start, Seconds End);

    private static IEnumerable<Sounded> Breaths(Bar bar, SongClock clock) =>
        from notes in bar.Harp.GroupBy(n => n.Start)
        orderby notes.Key
        let place = new SongPlace(bar.Number, notes.Key, notes.Max(n => n.Length))
        select new Sounded(notes.First().Value.Breath, place, place.Length.Value / bar.Meter.BarLength.Value,
            clock.TimeOf(bar.Number, place.Start), clock.TimeOf(bar.Number, place.Start + place.Length));

    private static double WorthOf(Sounded[] breaths, Breath breath) => breaths.Where(b => b.Breath == breath).Sum(b => b.BarsWorth);

    private static ImmutableArray<BreathRun> Joined(Sounded[] breaths, Seconds shortestRest)
    {
        var runs = ImmutableArray.CreateBuilder<BreathRun>();
        for (var i = 0; i < breaths.Length; i++)
        {
            var (note, before) = (breaths[i], i == 0 ? null : breaths[i - 1]);
            var rest = i + 1 < breaths.Length ? Rest(note, breaths[i + 1]) : (Seconds?)null;
            if (before?.Breath == note.Breath && Rest(before, note) < shortestRest)
                runs[^1] = runs[^1] with { Last = note.Place, Sounding = runs[^1].Sounding + (note.End - note.Start), RestAfter = rest };
            else
                runs.Add(new(note.Breath, note.Place, note.Place, note.End - note.Start, rest));
        }
        return runs.ToImmutable();
    }

    private static Seconds Rest(Sounded from, Sounded to) => Seconds.FromSeconds(Math.Max(0, (to.Start - from.End).Value));

    private static ImmutableArray<BreathPassage> Passed(ImmutableArray<BreathRun> runs, Seconds shortestRest)
    {
        var passages = ImmutableArray.CreateBuilder<BreathPassage>();
        for (var first = 0; first < runs.Length;)
        {
            var last = first;
            while (last + 1 < runs.Length && runs[last].RestAfter < shortestRest)
                last++;
            var among = runs[first..(last + 1)];
            passages.Add(new(runs[first].First.Bar, runs[last].Last.Bar, Sum(among, Breath.Blow), Sum(among, Breath.Draw), runs[last].RestAfter));
            first = last + 1;
        }
        return passages.ToImmutable();
    }

    private static Seconds Sum(IEnumerable<BreathRun> runs, Breath breath) =>
        Seconds.FromSeconds(runs.Where(r => r.Breath == breath).Sum(r => r.Sounding.Value));
}
