using System.Globalization;
using Harkbook.Music.Songs.Reading;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Writing;

/// <summary>Standings as a song file writes them.</summary>
internal static class StandingText
{
    /// <summary>"~heard 84%"; empty for a plain decision, which needs no words.</summary>
    public static string Write(Standing standing) => standing == Standing.Decided ? "" : "~" + Words(standing);

    public static string WriteAt(int bar, Beats start, Standing standing) => $"~bar {bar} beat {BeatText.Write(start)} {Words(standing)}";

    /// <summary>The mark behind one cell, where a mark can say it: "?" or "?62".</summary>
    public static string? Mark(Standing standing) =>
        standing != Standing.Heard(standing.Confidence) ? null : standing.Confidence is { } confidence ? $"?{Percent(confidence)}" : "?";

    private static string Words(Standing standing) => standing.Kind switch
    {
        StandingKind.Heard => standing.Confidence is { } confidence ? $"heard {Percent(confidence)}%" : "heard",
        StandingKind.Assumed => "assumed",
        StandingKind.Decided => "decided" + Signature(standing),
        _ => "corrected" + Signature(standing),
    };

    private static string Signature(Standing standing) =>
        (standing.On is { } on ? on.ToString(" yyyy-MM-dd", CultureInfo.InvariantCulture) : "")
        + (standing.By is { } by ? " " + PlainText.Write(by, always: by.Contains(':') || DateOnly.TryParse(by, CultureInfo.InvariantCulture, out _)) : "")
        + (standing.Why is { } why ? ": " + PlainText.Write(why) : "");

    private static int Percent(double confidence) => (int)Math.Round(Math.Clamp(confidence, 0, 1) * 100);
}
