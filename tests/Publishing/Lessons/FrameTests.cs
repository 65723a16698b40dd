using Harkbook.Music.Analysis.Practice;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Lessons.Timing;
using Harkbook.Publishing.Lessons.Video;
using Harkbook.Units;

namespace Harkbook.Publishing.Tests.Lessons;

public sealed class FrameTests
{
    public static TheoryData<string> Songs => [.. LessonSongs.Hard.Keys];

    [Theory]
    [MemberData(nameof(Songs))]
    public void NothingIsCutAndNothingOverlaps(string title)
    {
        foreach (var still in Stills(title))
            Layout.IsSound(still);
    }

    /// <summary>26 pixels of 1080 is what the design asks for what must be read; sharps, bends and other small signs stay above 18.</summary>
    [Theory]
    [MemberData(nameof(Songs))]
    public void WordsAreLargeEnough(string title)
    {
        foreach (var (text, size) in Stills(title).SelectMany(Sizes))
            Assert.True(size >= (text.Length > 2 ? 26 : 18) - 0.01, $"'{text}' is {size:0.0} pixels");
    }

    [Fact]
    public void TheFrameSaysWhatToHoldWhatComesAndWhen()
    {
        var texts = TextsAt(LessonSongs.FourBars, 4.5, 0.95);
        Assert.Contains("G", texts);
        Assert.Contains("next in", texts);
        Assert.Contains("beat", texts);
        Assert.Contains("Back", texts);
    }

    [Fact]
    public void APartialCapoIsSaidWithItsStringsBeforeTheMusicAndInTheHead()
    {
        var song = LessonSongs.Read("title T\nmeter 4/4\ntempo 60\nkey E major\ncapo 2 on A2 D3 G3\nshape Esus4 000000\nsection A\nanchors 1 = 0:04\n"
            + "chords | Esus4 |\n");
        var texts = TextsAt(song, 9, 0.1);
        Assert.Contains("capo on fret 2 on strings 3, 4, 5", texts);
        Assert.Contains(texts, t => t.EndsWith("capo 2 on strings 3, 4, 5", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(1, "bar 1 of all 4")]
    [InlineData(3, "bar 3 of 3 to 4")]
    public void AHandOutsFrameSaysWhichOfTheSongsBarsItHas(int first, string place)
    {
        var timeline = new LessonTimeline(LessonSongs.FourBars, Passage.Of(first, 4), Seconds.FromSeconds(0));
        var plan = new FramePlan(timeline, 4.5);
        Assert.Contains(place, Layout.Texts(plan.Still(plan.MomentAt(timeline.Music.Start + 0.1))));
    }

    /// <summary>Bars 3 and 4 practised keep their numbers, as on the exercise's sheet; the bar before them counts in.</summary>
    [Theory]
    [InlineData(0.1, "count in")]
    [InlineData(1.1, "bar 3")]
    [InlineData(4.1, "bar 4")]
    public void APractisedBarIsCalledAsInItsSong(double time, string place)
    {
        var practice = PracticePlan.Of(LessonSongs.FourBars, new() { FirstBar = 3, LastBar = 4, Speeds = [1], Rounds = 2 });
        var plan = new FramePlan(new(practice.Song, practice.BarNames), practice.Length.Value);
        Assert.Contains(place, Layout.Texts(plan.Still(plan.MomentAt(time))));
    }

    /// <summary>Four bars with strum and words only leave room for the next two bars' chords and words, and for their section's name.</summary>
    [Fact]
    public void UnderALowLineStandsWhatIsSungNext()
    {
        var song = LessonSongs.Read("""
            title   Two and Two
            meter   4/4
            tempo   120
            key     C major
            shape C x32010
            shape G 320003
            section First
              anchors 1 = 0:00.200
              chords | C | G |
              strum  | d d d d | d d d d |
              sung   | Down to the . | quay _ . . |
            section Second
              chords | G | C |
              strum  | d d d d | d d d d |
              sung   | where lan- terns _ | burn _ . . |
            """);
        var texts = TextsAt(song, 9, 1);
        Assert.Contains("where", texts);
        Assert.Contains("burn", texts);
        Assert.Contains("Second", texts);
        Assert.DoesNotContain("then", texts);
    }

    /// <summary>A picker reads ahead tab, a strummer strokes: the next line shows its own fret numbers and arrows.</summary>
    [Fact]
    public void TheNextLineShowsWhatItsHandsDo()
    {
        var song = LessonSongs.Read("""
            title   Tab Ahead
            meter   4/4
            tempo   120
            key     C major
            shape C x32010
            section First
              anchors 1 = 0:00.200
              chords | C | C | C | C |
              sung   | Down to the . | quay _ . . | where lan- terns _ | burn _ . . |
              pick
                B3 | . 1 . 1 | . 1 . 1 | . 9 . 9 | . 9 . 9 |
            """);
        Assert.Equal(4, TextsAt(song, 9, 1).Count(t => t == "9"));
        var strummed = LessonSongs.Read("""
            title   Strokes Ahead
            meter   4/4
            tempo   120
            key     C major
            shape C 332010
            section First
              anchors 1 = 0:00.200
              chords | C | C | C | C |
              strum  | d d d d | d d d d | x x x x | x x x x |
              sung   | Down to the . | quay _ . . | where lan- terns _ | burn _ . . |
            """);
        // The strokes of this line are arrows; a muted one is a cross of two slanting lines, and eight of them come next.
        Assert.Equal(16, Still(strummed, 9, 1).Flattened().Select(m => m.Mark).OfType<LineMark>().Count(l => l.From.X != l.To.X && l.From.Y != l.To.Y));
    }

    [Fact]
    public void AChangedMeterIsMarkedOverItsBar()
    {
        var texts = TextsAt(LessonSongs.TwoFour, 9, 0.1);
        Assert.Contains("2/4", texts);
        Assert.Contains("4/4", texts);
    }

    /// <summary>The last bar, from 2.5 s on, is a beat of G and three of silence.</summary>
    [Fact]
    public void ASilenceIsCalledSo()
    {
        Assert.DoesNotContain("silence", TextsAt(LessonSongs.TwoFour, 9, 2.6));
        Assert.Contains("silence", TextsAt(LessonSongs.TwoFour, 9, 2.9));
    }

    [Fact]
    public void AfterTheEndTheFrameSaysHowToTuneAgain()
    {
        var texts = TextsAt(LessonSongs.FourBars, 9, 8);
        Assert.Contains("the end", texts);
        Assert.Contains("D A D F♯ A D", texts);
    }

    [Fact]
    public void BeforeTheMusicTheFrameSaysHowToTune()
    {
        var texts = TextsAt(LessonSongs.FourBars, 4.5, 0.1);
        Assert.Contains("D A D F♯ A D", texts);
        Assert.Contains("capo on fret 2", texts);
        Assert.Contains("count in", texts);
    }

    [Fact]
    public void TheMarkerMovesOverAPictureThatStays()
    {
        using var painter = new FramePainter(new(new(LessonSongs.FourBars), 4.5));
        var first = painter.Paint(0.21).ToArray();
        var again = painter.Paint(0.21).ToArray();
        var later = painter.Paint(0.40).ToArray();
        Assert.True(first.AsSpan().SequenceEqual(again));
        var changed = Enumerable.Range(0, first.Length / 4).Count(i => !first.AsSpan(i * 4, 4).SequenceEqual(later.AsSpan(i * 4, 4)));
        Assert.InRange(changed, 1, Screen.Width * Screen.Height / 50);
    }

    private static IReadOnlyCollection<string> TextsAt(Song song, double length, double time) => Layout.Texts(Still(song, length, time));

    private static Drawing Still(Song song, double length, double time)
    {
        var plan = new FramePlan(new(song), length);
        return plan.Still(plan.MomentAt(time));
    }

    private static IEnumerable<Drawing> Stills(string title)
    {
        var timeline = new LessonTimeline(LessonSongs.Hard[title]);
        var length = timeline.Music.End + 3;
        var plan = new FramePlan(timeline, length);
        var step = Math.Max(0.45, length / 40);
        for (var time = 0.0; time < length; time += step)
            yield return plan.Still(plan.MomentAt(time));
    }

    private static IEnumerable<(string Text, double Size)> Sizes(Drawing drawing) =>
        from placed in drawing.Flattened()
        where placed.Mark is TextMark { Text: not "" } && placed.Mark.Bounds.Width > 0
        let text = (TextMark)placed.Mark
        select (text.Text, text.Size * placed.Bounds.Width / text.Bounds.Width);
}
