using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Harkbook.Publishing.Lessons.Timing;

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
            var (start, end) = (Milliseconds(section.Start), Milliseconds(Math.Min(section.End, length)));
            if (end > start)
                text.Append(CultureInfo.InvariantCulture, $"\n{Stamp(start)} --> {Stamp(end)}\n{Escaped(section.Value)}\n");
        }
        return text.ToString();
    }

    /// <summary>
    /// Lines such as "0:00 Intro". Sections shorter than ten seconds share a line with the one before, under both names;
    /// empty where fewer than three remain.
    /// </summary>
    public static string Lines(LessonTimeline timeline, double length)
    {
        var chapters = Joined(timeline.Sections, length);
        return chapters.Count < 3 ? "" : string.Concat(chapters.Select(c => $"{Clock(c.Start)} {c.Value}\n"));
    }

    private static List<Timed<string>> Joined(ImmutableArray<Timed<string>> sections, double length)
    {
        var chapters = new List<Timed<string>>();
        foreach (var section in sections.Where(s => s.Start < length))
        {
            var whole = section with { Start = chapters.Count == 0 ? 0 : section.Start, End = Math.Min(section.End, length) };
            if (chapters.Count > 0 && (whole.Start - chapters[^1].Start < ShortestSeconds || length - whole.Start < ShortestSeconds))
                chapters[^1] = new(chapters[^1].Start, whole.End, $"{chapters[^1].Value}, {whole.Value}");
            else
                chapters.Add(whole);
        }
        return chapters;
    }

    private static long Milliseconds(double seconds) => (long)Math.Round(Math.Max(0, seconds) * 1000);

    private static string Stamp(long milliseconds)
    {
        var time = TimeSpan.FromMilliseconds(milliseconds);
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
