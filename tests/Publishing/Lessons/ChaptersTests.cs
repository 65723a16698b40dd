using System.Text;
using System.Text.RegularExpressions;
using Harkbook.Publishing.Lessons;
using Harkbook.Publishing.Lessons.Timing;

namespace Harkbook.Publishing.Tests.Lessons;

/// <summary>WebVTT: the W3C's recommendation candidate, "WebVTT: The Web Video Text Tracks Format". Lines of descriptions: common practice.</summary>
public sealed partial class ChaptersTests
{
    private static LessonTimeline Sections(params (string Name, double Start)[] sections) => new(LessonSongs.Read(
        "title Sections\ntempo 60\nkey C major\nmeter 1/4\n"
        + string.Concat(sections.Select(s => $"section {s.Name}\n  anchors 1 = {TimeSpan.FromSeconds(s.Start):h\\:mm\\:ss\\.fff}\n  chords | C |\n"))));

    private static readonly LessonTimeline Plain = Sections(("Intro & more", 3), ("Verse <1>", 15.25), ("Chorus --> out", 31.5), ("Verse 2", 3599.5),
        ("Ending", 3661.001));

    [Fact]
    public void WebVttHasTheFormOfTheStandard()
    {
        var text = Chapters.WebVtt(Plain, 3700);
        Assert.StartsWith("WEBVTT\n\n", text);
        var blocks = text.TrimEnd().Split("\n\n")[1..];
        Assert.Equal(5, blocks.Length);
        Assert.All(blocks, block => Assert.Matches(Cue(), block));
        Assert.Equal("00:00:15.250 --> 00:00:31.500\nVerse &lt;1&gt;", blocks[1]);
        Assert.Equal("01:01:01.001 --> 01:01:02.001\nEnding", blocks[4]);
        Assert.DoesNotContain(blocks, b => b.Split('\n')[1].Contains("-->"));
    }

    /// <summary>The hour stands where ffmpeg's own writer of SubRip puts it; names come back as they were.</summary>
    [Fact]
    public async Task FfmpegReadsTheWebVtt()
    {
        Programs.NeedFfmpeg();
        using var folder = new TemporaryFolder();
        await File.WriteAllTextAsync(folder.At("c.vtt"), Chapters.WebVtt(Plain, 3700), TestContext.Current.CancellationToken);
        var srt = Encoding.UTF8.GetString(await Programs.FfmpegAsync("-i", folder.At("c.vtt"), "-f", "srt", "pipe:1"));
        Assert.Contains("00:00:15,250 --> 00:00:31,500", srt);
        Assert.Contains("01:01:01,001 --> 01:01:02,001", srt);
        Assert.Contains("Intro & more", srt);
    }

    [Fact]
    public void LinesKeepTheRulesOfVideoDescriptions()
    {
        var lines = Chapters.Lines(Plain, 3700).TrimEnd().Split('\n');
        Assert.Equal(["0:00 Intro & more", "0:15 Verse <1>", "0:31 Chorus --> out", "59:59 Verse 2", "1:01:01 Ending"], lines);
    }

    [Fact]
    public void SectionsUnderTenSecondsShareALine()
    {
        var timeline = Sections(("Hum", 1), ("Verse", 4), ("Turn", 30), ("Chorus", 33), ("Verse 2", 60), ("Ring", 95));
        Assert.Equal("0:00 Hum, Verse\n0:30 Turn, Chorus\n1:00 Verse 2, Ring\n", Chapters.Lines(timeline, 100));
    }

    [Fact]
    public void FewerThanThreeChaptersAreNone() =>
        Assert.Equal("", Chapters.Lines(Sections(("A", 1), ("B", 20)), 100));

    [GeneratedRegex(@"^\d\d:[0-5]\d:[0-5]\d\.\d{3} --> \d\d:[0-5]\d:[0-5]\d\.\d{3}\n[^\n<]+$")]
    private static partial Regex Cue();
}
