using System.Collections.Immutable;
using System.Globalization;
using System.Text;

namespace Harkbook.Publishing.Lessons;

/// <summary>
/// A song's sections as chapters: a WebVTT file (W3C), and lines as video descriptions take them (common practice: the
/// first at 0:00, at least three, rising, each ten seconds or longer).
/// </summary>
public static class Chapters
{
    private const double ShortestSeconds = 10;

    /// <param name="length">The recording's length in seconds.</param>
    public static string WebVtt(LessonTimeline timeline, double length)
    {
        var text = new StringBuilder("WEBVTT\n");
        foreach (var section in timeline.Sections)
        {
            var end = Math.Min(section.End, length);
            if (end - section.Start < 0.001)
                continue;
            text.Append(CultureInfo.InvariantCulture, $"\n{Stamp(section.Start)} --> {Stamp(end)}\n{Escaped(section.Value)}\n");
        }
        return text.ToString();
    }

    /// <summary>Lines such as "0:00 Intro". Sections shorter than ten seconds join the one before; empty where fewer than three remain.</summary>
    public static string Lines(LessonTimeline timeline, double length)
    {
        var lines = Long(timeline.Sections, length);
        return lines.Length < 3 ? "" : string.Concat(lines.Select((s, i) => $"{Clock(i == 0 ? 0 : s.Start)} {s.Value}\n"));
    }

    private static ImmutableArray<Timed<string>> Long(ImmutableArray<Timed<string>> sections, double length)
    {
        var kept = new List<Timed<string>>();
        foreach (var section in sections)
        {
            if (kept.Count == 0 || section.Start - (kept.Count == 1 ? 0 : kept[^1].Start) >= ShortestSeconds)
                kept.Add(section);
        }
        if (kept.Count > 1 && length - kept[^1].Start < ShortestSeconds)
            kept.RemoveAt(kept.Count - 1);
        return [.. kept];
    }

    private static string Stamp(double seconds)
    {
        var time = TimeSpan.FromMilliseconds(Math.Round(Math.Max(0, seconds) * 1000));
        return string.Create(CultureInfo.InvariantCulture, $"{(int)time.TotalHours:00}:{time.Minutes:00}:{time.Seconds:00}.{time.Milliseconds:000}");
    }

    private static string Clock(double seconds)
    {
        var whole = (int)Math.Floor(seconds);
        return whole >= 3600 ? $"{whole / 3600}:{whole / 60 % 60:00}:{whole % 60:00}" : $"{whole / 60}:{whole % 60:00}";
    }

    private static string Escaped(string text) =>
        text.Replace("&", "&amp;", StringComparison.Ordinal).Replace("<", "&lt;", StringComparison.Ordinal).Replace(">", "&gt;", StringComparison.Ordinal);
}
