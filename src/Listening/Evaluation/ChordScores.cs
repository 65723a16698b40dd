using Harkbook.Listening.Interchange;

namespace Harkbook.Listening.Evaluation;

/// <summary>Chord symbol recall: the share of the judged time for which a comparison holds (weighted, WCSR).</summary>
public static class ChordScores
{
    /// <param name="reference">Spans with Harte labels, rising, without overlaps.</param>
    /// <param name="estimated">The same; gaps within the reference's span count as "N".</param>
    /// <returns>0–1; 0 where nothing is judged.</returns>
    public static double Recall(IReadOnlyList<AnnotatedSpan> reference, IReadOnlyList<AnnotatedSpan> estimated, Func<string, string, bool?> comparison)
    {
        var (right, judged) = RecallParts(reference, estimated, comparison);
        return judged > 0 ? right / judged : 0;
    }

    /// <summary>The seconds judged right and the seconds judged, for adding up several recordings.</summary>
    public static (double Right, double Judged) RecallParts(
        IReadOnlyList<AnnotatedSpan> reference, IReadOnlyList<AnnotatedSpan> estimated, Func<string, string, bool?> comparison)
    {
        var (right, judged) = (0.0, 0.0);
        var cuts = reference.Concat(estimated).SelectMany(s => new[] { s.Start, s.End }).Distinct().Order().ToArray();
        var (r, e) = (0, 0);
        for (var i = 0; i + 1 < cuts.Length; i++)
        {
            var truth = LabelAt(reference, cuts[i], ref r);
            if (truth is null || comparison(truth, LabelAt(estimated, cuts[i], ref e) ?? "N") is not { } same)
                continue;
            judged += cuts[i + 1] - cuts[i];
            right += same ? cuts[i + 1] - cuts[i] : 0;
        }
        return (right, judged);
    }

    private static string? LabelAt(IReadOnlyList<AnnotatedSpan> spans, double time, ref int from)
    {
        while (from < spans.Count && spans[from].End <= time)
            from++;
        return from < spans.Count && spans[from].Start <= time ? spans[from].Label : null;
    }
}
