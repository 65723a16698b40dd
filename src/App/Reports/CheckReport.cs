using System.Globalization;
using System.Text;
using System.Text.Json;
using Harkbook.Listening.Checking;

namespace Harkbook.App.Reports;

/// <summary>What a check found, in plain text and for machines.</summary>
internal static class CheckReport
{
    /// <summary>What isn't supported (or everything), the most doubtful first, then one line for each kind of claim.</summary>
    /// <param name="all">The supported claims too.</param>
    /// <param name="byTime">In the order of the recording.</param>
    public static string Write(CheckResult result, bool all, bool byTime = false)
    {
        var text = new StringBuilder();
        var offered = RemedyChoice.Offered(result);
        foreach (var finding in (byTime ? result.Findings : result.MostDoubtfulFirst).Where(f => all || f.Verdict != Verdict.Supported))
            text.AppendLine(Line(finding) + (finding.Remedy is null ? "" : $"  [{1 + offered.IndexOf(finding)}]"));
        if (offered.Length > 0)
            text.AppendLine().AppendLine("A suggestion goes into the song by its number in [ ] or by its bar: --take 1 or --take bar 12 shows the change, "
                + "--write makes it.");
        if (text.Length > 0)
            text.AppendLine();
        return text.Append(Summary(result)).ToString();
    }

    /// <summary>What holds of a song without a recording.</summary>
    public static string Holding(IReadOnlyCollection<string> asked) =>
        $"What can be checked without a recording holds: {string.Join("; ", asked)}." + Environment.NewLine;

    public static string Json(CheckResult result)
    {
        var offered = RemedyChoice.Offered(result);
        return JsonSerializer.Serialize(
            result.Findings.Select(f => new
            {
                kind = Name(f.Kind),
                verdict = f.Verdict.ToString().ToLowerInvariant(),
                support = Math.Round(f.Support, 4),
                time = f.Where?.Time.Value,
                bar = f.Where?.Bar,
                beat = f.Where?.Beat,
                claim = f.Claim,
                heard = f.Heard,
                suggestion = f.Suggestion,
                rival = f.Rival?.Reading,
                rivalLogOdds = f.Rival is { } rival ? Math.Round(rival.LogOdds, 3) : (double?)null,
                number = f.Remedy is null ? (int?)null : 1 + offered.IndexOf(f),
            }),
            JsonLayout.Readable) + "\n";
    }

    private static string Summary(CheckResult result)
    {
        var text = new StringBuilder();
        foreach (var shown in result.Findings.OrderBy(f => f.Kind).GroupBy(f => Shown(f.Kind)))
        {
            var (count, supported) = (shown.Count(), shown.Count(f => f.Verdict == Verdict.Supported));
            text.AppendLine(CultureInfo.InvariantCulture, $"{shown.Key,-9} {count,5} {(count == 1 ? "claim: " : "claims:")} {supported} supported "
                + $"({100.0 * supported / count:0}%), {shown.Count(f => f.Verdict == Verdict.Doubtful)} doubtful, "
                + $"{shown.Count(f => f.Verdict == Verdict.Contradicted)} contradicted");
        }
        return text.Append(NotAsked(result)).ToString();
    }

    private static string NotAsked(CheckResult result) => result.NotAsked.IsEmpty ? "" : Environment.NewLine
        + $"The recording wasn't asked: {string.Join("; ", result.NotAsked)}." + Environment.NewLine;

    /// <summary>A finding on one line: place, verdict, claim, what was heard instead.</summary>
    public static string Line(Finding finding)
    {
        var where = finding.Where is { } place
            ? HearingReport.Clock(place.Time) + (place.Bar is { } bar ? string.Create(CultureInfo.InvariantCulture, $"  bar {bar} beat {place.Beat:0.##}") : "")
            : "whole song";
        var heard = finding.Heard is null ? "" : "; " + finding.Heard;
        var suggestion = finding.Suggestion is null || finding.Heard?.Contains(finding.Suggestion, StringComparison.Ordinal) == true ? ""
            : $"; would fit better: {finding.Suggestion}{(finding.Remedy?.Reach is { } reach ? $" ({reach})" : "")}";
        return string.Create(CultureInfo.InvariantCulture, $"{where,-26} {finding.Verdict.ToString().ToLowerInvariant(),-12} {Shown(finding.Kind),-7} ")
            + $"{finding.Claim} ({HearingReport.Percent(finding.Support)}%){heard}{suggestion}{Times(finding.Rival)}";
    }

    /// <summary>How much likelier the rival is, where it is at least twice as likely.</summary>
    private static string Times(Rival? rival) =>
        rival is { LogOdds: > 0.69 } ? string.Create(CultureInfo.InvariantCulture,
            $", {Rounded(Math.Exp(Math.Min(rival.LogOdds, Math.Log(1000))))} times as likely") : "";

    /// <summary>Two digits say as much as is known.</summary>
    private static double Rounded(double times) => times < 10 ? Math.Round(times) : Math.Round(times / 10) * 10;

    /// <summary>As <see cref="Name"/>, for people.</summary>
    private static string Shown(ClaimKind kind) => kind == ClaimKind.TuneNote ? "tune note" : Name(kind);

    private static string Name(ClaimKind kind) => kind switch
    {
        ClaimKind.PlaceOnNeck => "place",
        ClaimKind.TuningString => "string",
        ClaimKind.Silence or ClaimKind.StillHand => "unwritten",
        _ => kind.ToString().ToLowerInvariant(),
    };
}
