using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving;
using Harkbook.Publishing.Engraving.Sheets;
using Harkbook.Publishing.Lessons.Timing;
using Harkbook.Publishing.Lessons.Video;
using Harkbook.Publishing.Tests.Lessons;

namespace Harkbook.Publishing.Tests.Engraving;

/// <summary>Unicode 15, Musical Symbols: U+1D13D is the quarter rest. docs/song-file.md: "_" is silence: what came before ends.</summary>
public class SilenceTests
{
    private const string Rest = "\U0001D13D";

    private const string Head = """
        title  Quiet Corners
        meter  4/4
        tempo  120
        key    C major
        harp   C
        shape  C   x32010
        shape  Bb  x13331
        section Verse

        """;

    /// <summary>What each line says, and how many rests stand in the whole.</summary>
    [Theory]
    [InlineData("chords | C . . . | Bb _ _ _ |", 1)]
    [InlineData("chords | C . . . | _ |", 1)]
    [InlineData("chords | C . . . | . . . . |", 0)]
    [InlineData("chords | C _ . C | _ |", 2)]
    [InlineData("chords | _ | C |", 0)]
    [InlineData("chords | C | C |\nstrum | d _ d . | . . _ . |", 2)]
    [InlineData("chords | C | C |\nharp | +4 _ -4 . | . . . . |", 1)]
    [InlineData("chords | C | C |\npick\n  E4 | 0 . _ . | . |\n  B3 | . 1 . . | . . _ . |\n  G3 | . |||\n  D3 | . |||\n  A2 | . |||\n  E2 | . |||", 1)]
    // A chord that isn't named under strokes is no silence.
    [InlineData("chords | C . . . | _ |\nstrum | d . d . | d . d . |", 0)]
    public void WhatCameBeforeEndsOnSheetAndScreen(string bars, int rests)
    {
        var song = LessonSongs.Read(Head + bars.Replace("|||", "| . |", StringComparison.Ordinal));
        Assert.Equal(rests, BarSheet.Engrave(song, PaperSize.A4).Sum(Rests));
        Assert.Equal(rests > 0, BarSheet.Engrave(song, PaperSize.A4).SelectMany(Layout.Texts)
            .Any(t => t.Contains("what sounded before it ends", StringComparison.Ordinal)));
        var plan = new FramePlan(new LessonTimeline(song), 5);
        Assert.Equal(rests, Rests(plan.Still(plan.MomentAt(0.1))));
        Assert.All(BarSheet.Engrave(song, PaperSize.A4), Layout.IsSound);
        Layout.IsSound(plan.Still(plan.MomentAt(0.1)));
    }

    /// <summary>Where the hand that picked goes on strumming, or the other way round, nothing falls silent.</summary>
    [Theory]
    [InlineData("from 2 | d . d . |", "0 . . . | _", 0)]
    [InlineData("| d . d . | _ |", ". | 0 . . .", 0)]
    [InlineData("| d . d . | _ |", ". | . 0 . .", 1)]
    public void AHandThatGoesOnOtherwiseIsNotSilent(string strum, string highest, int rests)
    {
        var others = string.Concat("B3 G3 D3 A2 E2".Split(' ').Select(s => $"\n  {s} | . | . |"));
        var song = LessonSongs.Read(Head + $"chords | C | C |\nstrum {strum}\npick\n  E4 | {highest} |{others}");
        Assert.Equal(rests, BarSheet.Engrave(song, PaperSize.A4).Sum(Rests));
    }

    /// <summary>A pattern that ends in silence is printed once, at its section's head, with its rest.</summary>
    [Fact]
    public void APatternKeepsItsRest()
    {
        var bars = string.Concat(Enumerable.Repeat(" d _ d . |", 6));
        var song = LessonSongs.Read(Head + "chords | C | C | C | C | C | C |\nstrum |" + bars);
        Assert.Equal(1, BarSheet.Engrave(song, PaperSize.A4).Sum(Rests));
    }

    /// <summary>A chord that fills one beat of a narrow bar leaves room for the rest behind it.</summary>
    [Fact]
    public void TheRestStandsBehindTheChordAndBeforeTheNext()
    {
        var page = BarSheet.Engrave(LessonSongs.Read(Head + "chords | C . . . | Bb _ _ C |"), PaperSize.A4)[0];
        var rest = Assert.Single(page.Flattened(), m => m.Mark is TextMark { Text: Rest });
        var chords = page.Flattened().Where(m => m.Mark is TextMark { Text: "B" or "C", Face: Face.Strong }
            && Math.Abs(m.Bounds.Bottom - rest.Bounds.Bottom) < 6).ToArray();
        Assert.Contains(chords, c => c.Bounds.Right < rest.Bounds.Left);
        Assert.Contains(chords, c => c.Bounds.Left > rest.Bounds.Right);
    }

    /// <summary>A bar of 2/4 inside a verse, and the bar after it, which is in 4/4 again.</summary>
    [Fact]
    public void AChangedMeterStandsOnSheetAndScreen()
    {
        var song = LessonSongs.Read(Head + "chords | C | C |\nmeter 2/4\nchords | C |\nmeter 4/4\nchords | C |");
        string[] changes = ["2/4", "4/4"];
        Assert.Equal(changes, BarSheet.Engrave(song, PaperSize.A4).SelectMany(p => p.Flattened()).Select(m => m.Mark).OfType<TextMark>()
            .Where(t => t.Face == Face.NarrowStrong && t.Text.Contains("/4", StringComparison.Ordinal)).Select(t => t.Text));
        var plan = new FramePlan(new LessonTimeline(song), 9);
        Assert.Equal(changes, Layout.Texts(plan.Still(plan.MomentAt(4.2))).Where(t => t.EndsWith("/4", StringComparison.Ordinal)));
        Assert.Equal([null, null, "2/4", "4/4"], new LessonTimeline(song).Bars.Select(b => b.ChangesMeter ? b.Bar.Meter.ToString() : null));
    }

    [Theory]
    [InlineData("sung | x . x . | x . . . | ~heard 40%", 0)]
    [InlineData("sung | x . x . | x . . . |", 3)]
    [InlineData("sung | x? . x . | x . . . |", 3)]
    public void CrossesThatNobodyDecidedAreOffTheSheet(string sung, int crosses)
    {
        var song = LessonSongs.Read(Head + "chords | C | C |\n" + sung);
        var texts = BarSheet.Engrave(song, PaperSize.A4).SelectMany(Layout.Texts).ToArray();
        Assert.Equal(crosses, texts.Count(t => t == "×"));
        Assert.Equal(crosses == 0, texts.Any(t => t.StartsWith("Not drawn:", StringComparison.Ordinal)));
    }

    private static int Rests(Drawing drawing) => Layout.Texts(drawing).Count(t => t == Rest);
}
