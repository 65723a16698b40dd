using System.Runtime.InteropServices;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving;
using Harkbook.Publishing.Engraving.Sheets;
using Harkbook.Publishing.Lessons.Pieces;
using Harkbook.Publishing.Lessons.Sounds;
using Harkbook.Publishing.Lessons.Timing;
using Harkbook.Units;

namespace Harkbook.Publishing.Tests.Lessons;

/// <summary>Bars 3 and 4 of a song whose bars last a second each from 0.2 s on.</summary>
public sealed class HandOutTests
{
    private static readonly Passage back = Passage.Of(3, 4);

    [Fact]
    public void TheSheetHoldsItsBarsAndTheShapesThatTheyUse()
    {
        var pages = BarSheet.Engrave(LessonSongs.FourBars, PaperSize.A4, back);
        var texts = pages.SelectMany(Layout.Texts).ToArray();
        Assert.Contains("Back", texts);
        Assert.DoesNotContain("Out & <home>", texts);
        Assert.Equal(["3", "4"], pages.SelectMany(p => p.Flattened()).Select(m => m.Mark).OfType<TextMark>()
            .Where(t => t is { Size: 6.4, Tint: Tint.Quiet } && t.Text.All(char.IsAsciiDigit)).Select(t => t.Text));
        Assert.Equal(["A7sus4", "F#m7b5"], back.PartOf(LessonSongs.FourBars).Shapes.Select(s => s.Name));
        Assert.All(pages, Layout.IsSound);
    }

    [Fact]
    public void ItsTimesCountFromWhereItsSoundStarts()
    {
        var timeline = new LessonTimeline(LessonSongs.FourBars, back, Seconds.FromSeconds(1.2));
        Assert.Equal([3, 4], timeline.Bars.Select(b => b.Bar.Number));
        Assert.Equal((1.0, 3.0), (Math.Round(timeline.Music.Start, 6), Math.Round(timeline.Music.End, 6)));
        Assert.Equal(["A7sus4", "F#m7b5"], timeline.Chords.Select(c => c.Value.Name));
        Assert.Equal(["Back"], timeline.Sections.Select(s => s.Value));
    }

    /// <summary>Four beats at 120 a minute last 2 s: so long is counted before a song that has no recording, as before a part of one.</summary>
    [Theory]
    [InlineData(1, 2, 6)]
    [InlineData(2, 2, 4)]
    public void ASongWithoutARecordingIsCountedIn(int first, int last, double end)
    {
        var song = LessonSongs.Read("title T\nmeter 4/4\ntempo 120\nkey C major\nshape C x32010\nsection A\nchords | C | C |\nstrum throughout | d d d d |\n");
        var bars = Passage.Of(first, last);
        using var sound = LessonSound.Of(song, bars == Passage.Whole(song) ? null : bars);
        var music = new LessonTimeline(song, bars, sound.Start).Music;
        Assert.Equal((2.0, end), (Math.Round(music.Start, 6), Math.Round(music.End, 6)));
        Assert.True(sound.Length.Value >= end);
    }

    /// <summary>A click at 3 s of the whole is heard 1 s into the part from 2 s on, which lasts 1.5 s.</summary>
    [Fact]
    public async Task ThePartOfASoundIsCutWhereItIsSaid()
    {
        Programs.NeedFfmpeg();
        using var folder = new TemporaryFolder();
        var part = (await LessonSongs.SoundAsync(folder.Path, 4.5, 3.0)).Part(Seconds.FromSeconds(2), Seconds.FromSeconds(1.5));
        Assert.False(await EncodedSound.WriteAsync(Harkbook.Audio.Recordings.Conversion.Ffmpeg.Find()!, part, "128k", folder.At("part.m4a"),
            LessonSongs.StoreIn(folder), "Cutting", TestContext.Current.CancellationToken));
        var bytes = await Programs.FfmpegAsync("-i", folder.At("part.m4a"), "-ac", "1", "-ar", "48000", "-f", "f32le", "pipe:1");
        var samples = MemoryMarshal.Cast<byte, float>(bytes).ToArray();
        Assert.Equal(1.5, samples.Length / 48_000.0, 0.03);
        Assert.Equal(1.0, Array.IndexOf(samples, samples.Max()) / 48_000.0, 0.01);
    }

    [Theory]
    [InlineData(0, 1)]
    [InlineData(3, 2)]
    public void BarsThatAreNoneAreRefused(int first, int last) => Assert.Throws<ArgumentOutOfRangeException>(() => Passage.Of(first, last));
}
