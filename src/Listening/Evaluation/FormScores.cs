using System.Collections.Immutable;

namespace Harkbook.Listening.Evaluation;

/// <summary>A section from one time to another, in seconds, under its label.</summary>
public readonly record struct FormSpan(double Start, double End, string Label);

/// <summary>How well a form is told, by mir_eval's measures of segments: borders hit, and stretches that belong together.</summary>
public static class FormScores
{
    /// <summary>Labels are compared every so many seconds, as mir_eval does.</summary>
    private const double Frame = 0.1;

    public static IEnumerable<Measured> Of(ImmutableArray<FormSpan> draft, ImmutableArray<FormSpan> truth)
    {
        if (truth.Length < 2)
            yield break;
        foreach (var window in new[] { 0.5, 3.0 })
            yield return new(FormattableString.Invariant($"section borders F, {window} s"),
                BoundaryScores.FMeasure(Borders(truth), Borders(draft), window, trim: true).F);
        yield return new("section labels, pairwise F", Pairwise(draft, truth).F);
        yield return new("sections written for one true one", (double)draft.Length / truth.Length);
    }

    /// <summary>
    /// Of all pairs of frames that one form puts under one label, how many the other does too (Levy and Sandler, IEEE Transactions on Audio, Speech and
    /// Language Processing 16, 2008). Only the time that both cover counts.
    /// </summary>
    public static FScore Pairwise(ImmutableArray<FormSpan> draft, ImmutableArray<FormSpan> truth)
    {
        if (draft.IsEmpty || truth.IsEmpty)
            return default;
        var (from, to) = (Math.Max(draft[0].Start, truth[0].Start), Math.Min(draft[^1].End, truth[^1].End));
        var times = Enumerable.Range(0, Math.Max(0, (int)((to - from) / Frame))).Select(i => from + (i + 0.5) * Frame).ToArray();
        var both = times.GroupBy(t => (At(draft, t), At(truth, t))).Select(g => (g.Key, Count: g.Count())).ToArray();
        var (drafted, real) = (Pairs(both.GroupBy(b => b.Key.Item1).Select(g => g.Sum(b => b.Count))), Pairs(both.GroupBy(b => b.Key.Item2)
            .Select(g => g.Sum(b => b.Count))));
        return FScore.FromCounts(Pairs(both.Select(b => b.Count)), real, drafted);
    }

    /// <summary>A section's name without its number: "Verse 2" is a verse.</summary>
    public static string LabelOf(string name) => name.TrimEnd([.. "0123456789 "]);

    private static int Pairs(IEnumerable<int> counts) => counts.Sum(c => c * (c - 1) / 2);

    private static string At(ImmutableArray<FormSpan> form, double time) => form.LastOrDefault(s => s.Start <= time, form[0]).Label;

    private static IEnumerable<double> Borders(ImmutableArray<FormSpan> form) => form.SelectMany(s => new[] { s.Start, s.End });
}
