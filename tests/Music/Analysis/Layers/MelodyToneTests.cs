using Harkbook.Music.Analysis;
using Harkbook.Music.Analysis.Layers;

namespace Harkbook.Music.Tests.Analysis.Layers;

/// <summary>
/// Non-chord tones on a C harmonica (blow 4 5 6 are C E G, draw 4 5 6 D F A: Wikipedia, "Richter-tuned harmonica"), one each as
/// "Open Music Theory" defines them under "Embellishing tones".
/// </summary>
public class MelodyToneTests
{
    [Theory]
    [InlineData("C |", "+4 -4 +5 . |", ToneKind.Passing, "D")]
    [InlineData("C |", "+5 -4 +4 . |", ToneKind.Passing, "D")]
    [InlineData("C |", "+5 -5 +5 . |", ToneKind.Neighbour, "F")]
    [InlineData("C |", "+4 -5 +5 . |", ToneKind.Appoggiatura, "F")]
    [InlineData("C |", "_ -4 +4 . |", ToneKind.Appoggiatura, "D")]
    [InlineData("C |", "+5 -5 +4 . |", ToneKind.Escape, "F")]
    [InlineData("C | F |", "+4 . . -5 | -5 . . . |", ToneKind.Anticipation, "F")]
    [InlineData("F | C |", "-5 . . . | . . +5 . |", ToneKind.Suspension, "F")]
    [InlineData("F | C |", "-5 . . . | -5 . +5 . |", ToneKind.Suspension, "F")]
    [InlineData("G | C |", "-3 . . . | . . +4 . |", ToneKind.Retardation, "B")]
    [InlineData("C | F | C |", "+6 . . . | . . . . | . . . . |", ToneKind.Pedal, "G")]
    [InlineData("C |", "+4 -4 +6 . |", ToneKind.Tension, "D")]
    [InlineData("C |", "+4 -5 +4 . |", ToneKind.Free, "F")]
    public void TonesAreToldByTheirNeighbours(string chords, string harp, ToneKind kind, string note)
    {
        var song = AnySong.Of($"harp C\nsection A\nchords | {chords}\nharp | {harp}\n");
        var other = Assert.Single(MelodyTone.Of(MelodyLine.Of(song, Layer.Harmonica)), t => t.Kind != ToneKind.ChordTone);
        Assert.Equal(kind, other.Kind);
        Assert.Equal(note, other.Note.Note.Pitch.Name.ToString());
    }

    // One note at a time: the high E4 ends when the line goes on below it, though nothing stops its string.
    [Fact]
    public void InALinePlayedOneNoteAtATimeTheNextNoteEndsTheOneBefore()
    {
        var line = MelodyLine.Of(AnySong.Of("section A\nchords | C . Am . |\npick\n E4 | 0 . . . |\n B3 | . 1 0 . |\n"), Layer.Picked);
        Assert.Equal([("E4", 1.0), ("C4", 1.0), ("B3", 2.0)], line.Select(n => (n.Note.Pitch.ToString(), n.Place.Length.Value)));
    }

    [Fact]
    public void TheHighestPickedVoiceIsFollowed()
    {
        var song = AnySong.Of("section A\nchords | C |\npick\n E4 | . 0 1 3 |\n A2 | 3 . . . |\n");
        Assert.Equal(["C3", "E4", "F4", "G4"], MelodyLine.Of(song, Layer.Picked).Select(n => n.Note.Pitch.ToString()));
        Assert.Equal("The highest picked voice stays on notes of the chord with three of its four notes; of the others one passes by step.",
            Assert.Single(MelodyRemarks.Of(song)).Sentence);
    }

    [Fact]
    public void PickedStringsStopWhenTheHandMoves()
    {
        var song = AnySong.Of("shape E 022100\nshape A x02220\nsection A\nchords | E | A |\npick\n G3 | 1 . . . | . . . . |\n D3 | . 2 . . | . . . . |\n");
        var second = Moments.Of(song).Where(m => m.Place.Bar == 2).ToArray();
        Assert.All(second, m => Assert.Equal("E3", Assert.Single(m.Notes).Pitch.ToString()));
    }

    [Fact]
    public void LeaningNotesAreFound()
    {
        var song = AnySong.Of("harp C\nsection A\nchords | C | C | C |\nharp | +4 . . . | -6 . +6 . | +4 . . . |\n");
        var remark = Assert.Single(MelodyRemarks.Of(song), r => r.Kind == RemarkKind.MelodyLeans);
        Assert.Equal("The harmonica leans on the sixth of C, A, a step above its fifth; it comes without a step and goes on by one.", remark.Sentence);
        Assert.Equal(2, Assert.Single(remark.Places).Bar);
    }

    [Fact]
    public void AMelodyOfChordTonesGetsNoRemark() =>
        Assert.Empty(MelodyRemarks.Of(AnySong.Of("harp C\nsection A\nchords | C | C |\nharp | +4 +5 +6 . | +5 . +4 . |\n")));
}
