using System.Collections.Immutable;
using Harkbook.Listening.Checking;

namespace Harkbook.Bench.Planted;

/// <summary>How one kind of error fares in one group of transcriptions.</summary>
/// <param name="Found">The share found at the false alarms asked for.</param>
/// <param name="FoundAsShipped">The share whose finding is doubtful or contradicted by the check's own verdicts.</param>
/// <param name="Area">Under the curve of errors found against right claims of the same kinds doubted: the chance that the error is doubted more than
/// a right claim.</param>
/// <param name="Named">Of those found, the share whose first rival is the truth; null where the truth has no name.</param>
internal sealed record PlantedScore(string Kind, int Count, double Found, double FoundAsShipped, double Area, double? Named);

/// <summary>All kinds of one group.</summary>
/// <param name="Threshold">Claims below this support are alarms: right transcriptions have as many a minute as asked for.</param>
/// <param name="AlarmsAsShipped">False alarms a minute by the check's own verdicts.</param>
internal sealed record GroupScore(string Group, double Minutes, double Threshold, double AlarmsAsShipped, ImmutableArray<PlantedScore> Kinds)
{
    public static GroupScore Of(PlantedRun run, string group, double alarmsAMinute)
    {
        var minutes = run.Minutes[group];
        var right = run.Right.Where(r => r.Group == group).Select(r => r.Finding).ToArray();
        var threshold = ThresholdOf(right, (int)Math.Floor(alarmsAMinute * minutes));
        return new(group, minutes, threshold, right.Count(f => f.Verdict != Verdict.Supported) / minutes,
            [.. run.Planted.Where(p => p.Group == group).GroupBy(p => p.Error.Kind).Select(k => Score([.. k], right, threshold))]);
    }

    public double Found => Kinds.IsEmpty ? 0 : Kinds.Average(k => k.Found);

    public double FoundAsShipped => Kinds.IsEmpty ? 0 : Kinds.Average(k => k.FoundAsShipped);

    public double Area => Kinds.IsEmpty ? 0 : Kinds.Average(k => k.Area);

    public double? Named => Kinds.Average(k => k.Named);

    /// <summary>The highest support below which at most so many right claims lie.</summary>
    private static double ThresholdOf(Finding[] right, int allowed)
    {
        var supports = right.Select(f => f.Support).Order().ToArray();
        return allowed < supports.Length ? supports[allowed] : 1;
    }

    private static PlantedScore Score(PlantedRow[] rows, Finding[] right, double threshold)
    {
        var found = rows.Where(r => r.Support < threshold).ToArray();
        var named = found.Where(r => r.Error.Truth.Length > 0).ToArray();
        return new(rows[0].Error.Kind, rows.Length, (double)found.Length / rows.Length,
            rows.Average(r => r.Finding is { Verdict: not Verdict.Supported } ? 1 : 0), AreaOf(rows, right),
            named.Length == 0 ? null : named.Average(r => r.IsNamed(threshold) ? 1 : 0));
    }

    /// <summary>Where silence is weighed, each written note counts as a place at which nothing is missing.</summary>
    private static double AreaOf(PlantedRow[] rows, Finding[] right)
    {
        var kinds = rows[0].Error.FoundBy;
        var supports = right.Where(f => kinds.Contains(f.Kind)).Select(f => f.Support).ToList();
        if (kinds is [ClaimKind.Silence or ClaimKind.StillHand])
            supports.AddRange(Enumerable.Repeat(1.0, right.Count(f => f.Kind == (kinds is [ClaimKind.Silence] ? ClaimKind.Note : ClaimKind.Stroke))));
        if (supports.Count == 0)
            return 0.5;
        supports.Sort();
        return rows.Average(r => Above(supports, r.Support) / supports.Count);
    }

    /// <summary>How many of the supports lie above one, those equal to it counted half.</summary>
    private static double Above(List<double> sorted, double support) => sorted.Count(s => s > support) + 0.5 * sorted.Count(s => s == support);
}
