using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving;
using Harkbook.Publishing.Engraving.Sheets;
using Harkbook.Publishing.Lessons.Timing;
using Harkbook.Publishing.Lessons.Video;
using Harkbook.Publishing.Tests.Lessons;

namespace Harkbook.Publishing.Tests.Engraving;

/// <summary>A tune on sheet and screen; which note is the higher is by scientific pitch notation (C4 to B4 rise, C5 follows).</summary>
public class TuneRowTests
{
    private const string Head = "title Low Lantern\nmeter 4/4\ntempo 100\nkey C major\nshape C x32010\n";

    [Fact]
    public void NotesStandUnderTheirSyllablesAndRiseWithTheirPitch()
    {
        var page = Sheet("tune voice\nsection A\nchords | C | C |\nsung | lan . tern . | low . . . |\ntune | E4 . C5 . | A4 . . . |\n");
        var marks = page.Flattened().ToArray();
        Box Of(string text) => marks.Single(m => m.Mark is TextMark t && t.Text == text && t.Tint == Tint.Voice).Bounds;
        Assert.Equal(Of("lan").Left, Of("E").Left, 1.5);
        Assert.Equal(Of("tern").Left, Of("C").Left, 1.5);
        Assert.True(Of("C").Bottom < Of("A").Bottom && Of("A").Bottom < Of("E").Bottom);
        Assert.True(Of("C").Top > Of("tern").Bottom - 1);
        Assert.Contains("E4–C5", Layout.Texts(page));
        Layout.IsSound(page);
    }

    [Theory]
    [InlineData("tune fiddle\n", "fiddle")]
    [InlineData("tune lead guitar\n", "lead")]
    [InlineData("tune voice\n", "tune")]
    public void TheRowIsNamedAfterItsPlayer(string player, string label) =>
        Assert.Contains(label, Layout.Texts(Sheet(player + "section A\nchords | C |\ntune | E4 . C5 . |\n")));

    /// <summary>A whole step is "1" over a bent note, as tab prints it.</summary>
    [Fact]
    public void ManyNotesAndTheirSignsStandApartOnSheetAndScreen()
    {
        const string Text = Head + "tune voice\nsection A\nchords | C | C |\n"
            + "tune | C4,D4,Eb4b+1/2,F#4 /G4,A4,Bb4~,C5 sD5,E5,F5,G5 A5bB5,\\G5,E5/,C5\\ | C3 G5 C3 G5 |\n";
        var song = LessonSongs.Read(Text);
        Assert.All(BarSheet.Engrave(song, PaperSize.A4), Layout.IsSound);
        Assert.Contains("A+1", BarSheet.Engrave(song, PaperSize.A4).SelectMany(Layout.Texts));
        Assert.Contains("E♭+¼", BarSheet.Engrave(song, PaperSize.A4).SelectMany(Layout.Texts));
        var plan = new FramePlan(new LessonTimeline(song), 5);
        Layout.IsSound(plan.Still(plan.MomentAt(0.1)));
    }

    /// <summary>Under a capo on fret 2 the hand's C sounds as D.</summary>
    [Fact]
    public void UnderHandNamesTheNotesAreTheHands() => Assert.Contains("C4–G4",
        Layout.Texts(Sheet("capo 2\nnames hand\ntune voice\nsection A\nchords | C |\ntune | C4 . G4 . |\n")));

    private static Drawing Sheet(string rest) => BarSheet.Engrave(LessonSongs.Read(Head + rest), PaperSize.A4)[0];
}
