using System.Globalization;
using System.Text;
using Harkbook.Music.Analysis.SecondInstruments;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Units;

namespace Harkbook.App.Reports;

/// <summary>How a harmonica part breathes, in words and for machines.</summary>
internal static class BreathReport
{
    public static void Append(StringBuilder text, BreathPlan plan, Harmonica harp)
    {
        Line($"breath, as written for the harmonica in {harp.Name}:");
        Line($"  {plan.BarsOut:0.#} bars' worth blown, {plan.BarsIn:0.#} drawn; the breath turns {(plan.Turns == 1 ? "once" : $"{plan.Turns} times")} "
            + $"without a rest");
        if (plan.Longest is { } longest)
            Line($"  longest one way: {Bars(longest.First.Bar, longest.Last.Bar)}, {Word(longest.Breath)}, {Time(longest.Sounding)}");
        foreach (var passage in plan.Passages.Where(p => p.RestAfter is not null))
            Line($"  room to breathe after bar {passage.LastBar}: {Time(passage.RestAfter!.Value)}");
        foreach (var run in plan.TooLong)
            Line($"  too long for one breath? {Bars(run.First.Bar, run.Last.Bar)}: {Time(run.Sounding)} {Word(run.Breath)}");
        foreach (var passage in plan.Unbalanced)
            Line($"  {(passage.Net.Value > 0 ? "the lungs fill" : "the lungs empty")} in {Bars(passage.FirstBar, passage.LastBar)}: {Time(passage.In)} drawn "
                + $"against {Time(passage.Out)} blown, without a rest");
        Line($"  (a breath is taken to last {Time(plan.Options.LongestBreath)}, a rest to breathe in at least {Time(plan.Options.ShortestRest)}; both are "
            + "assumptions)");

        void Line(string line) => text.AppendLine(line);
    }

    public static object Json(BreathPlan plan) => new
    {
        barsOut = Math.Round(plan.BarsOut, 4),
        barsIn = Math.Round(plan.BarsIn, 4),
        turns = plan.Turns,
        assumedLongestBreath = plan.Options.LongestBreath.Value,
        assumedShortestRest = plan.Options.ShortestRest.Value,
        runs = plan.Runs.Select(r => new
        {
            breath = Word(r.Breath),
            firstBar = r.First.Bar,
            firstBeat = r.First.Start.Value + 1,
            lastBar = r.Last.Bar,
            sounding = Math.Round(r.Sounding.Value, 3),
            restAfter = r.RestAfter is { } rest ? Math.Round(rest.Value, 3) : (double?)null,
            tooLong = r.Sounding > plan.Options.LongestBreath,
        }),
        passages = plan.Passages.Select(p => new
        {
            firstBar = p.FirstBar,
            lastBar = p.LastBar,
            @out = Math.Round(p.Out.Value, 3),
            @in = Math.Round(p.In.Value, 3),
            restAfter = p.RestAfter is { } rest ? Math.Round(rest.Value, 3) : (double?)null,
        }),
    };

    private static string Word(Breath breath) => breath == Breath.Blow ? "blown" : "drawn";

    private static string Bars(int first, int last) => first == last ? $"bar {first}" : $"bars {first}–{last}";

    private static string Time(Seconds time) => string.Create(CultureInfo.InvariantCulture, $"{time.Value:0.0} s");
}
