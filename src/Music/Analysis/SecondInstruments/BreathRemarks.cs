using System.Collections.Immutable;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.SecondInstruments;

/// <summary>What is worth saying about how a harmonica part breathes.</summary>
internal static class BreathRemarks
{
    private const string Counted = "lengths of the notes over their bars' lengths; times as the song's anchors tell";

    public static IEnumerable<Remark> Of(Song song)
    {
        var plan = BreathPlan.Of(song);
        if (plan.Longest is not { } longest)
            yield break;
        yield return new(RemarkKind.BreathPlan,
            $"It blows {Bars(plan.BarsOut)} in all and draws {Bars(plan.BarsIn)}, and the breath "
                + $"{(plan.Turns == 0 ? "never turns" : "turns " + NumberWords.Times(plan.Turns))} without a rest between. The longest stretch one way is "
                + $"{PlaceWords.Bars(longest.First.Bar, longest.Last.Bar)}, {Time(longest.Sounding)} {(longest.Breath == Breath.Blow ? "blown" : "drawn")}.",
            [new("out and in", $"{NumberWords.Of(plan.BarsOut)} and {NumberWords.Of(plan.BarsIn)} bars' worth", Counted),
                new("longest one way", $"{longest.Sounding} over bars {longest.First.Bar} to {longest.Last.Bar}", Counted)])
        {
            Places = Stretch(song, longest.First.Bar, longest.Last.Bar),
        };
        foreach (var run in plan.TooLong)
        {
            yield return TooLong(song, run.First.Bar, run.Last.Bar, plan.Options,
                $"{NumberWords.Sentence(PlaceWords.Bars(run.First.Bar, run.Last.Bar))} {(run.Breath == Breath.Blow ? "blow" : "draw")} for "
                    + $"{Time(run.Sounding)} with no rest, which may be long for one breath.",
                new("one way", run.Sounding.ToString(), Counted));
        }
        foreach (var passage in plan.Unbalanced.Where(p => !plan.TooLong.Any(r => r.First.Bar >= p.FirstBar && r.Last.Bar <= p.LastBar)))
        {
            yield return TooLong(song, passage.FirstBar, passage.LastBar, plan.Options,
                $"Through {PlaceWords.Bars(passage.FirstBar, passage.LastBar)} there is no rest, and {Time(passage.In)} are drawn against {Time(passage.Out)} "
                    + $"blown, so the lungs {(passage.Net.Value > 0 ? "fill" : "empty")}.",
                new("drawn less blown", passage.Net.ToString(), Counted));
        }
    }

    private static Remark TooLong(Song song, int first, int last, BreathPlanOptions options, string sentence, RemarkFact fact) =>
        new(RemarkKind.BreathTooLong, sentence,
            [fact, new("a breath is taken to last", options.LongestBreath.ToString(), "assumed, for one or two holes at an easy loudness"),
                new("a rest to breathe in is", options.ShortestRest.ToString(), "assumed")])
        {
            Places = Stretch(song, first, last),
        };

    private static ImmutableArray<SongPlace> Stretch(Song song, int first, int last) =>
        [.. song.Bars.Where(b => b.Number >= first && b.Number <= last).Select(SongPlace.Of)];

    private static string Bars(double worth) => Math.Abs(worth - 1) < 0.05 ? "one bar" : $"{NumberWords.Of(worth)} bars";

    private static string Time(Seconds time) => $"{NumberWords.Of(time.Value)} seconds";
}
