using CsCheck;
using Harkbook.Music.Instruments.Harmonicas;

namespace Harkbook.Music.Tests.Instruments;

public class HarpNoteTests
{
    // Common practice for written harmonica: + blow, - draw, ' a semitone's bend, o an over-bend, < the slide of a chromatic one.
    [Theory]
    [InlineData("+4", 4, Breath.Blow, 0)]
    [InlineData("-10", 10, Breath.Draw, 0)]
    [InlineData("-3''", 3, Breath.Draw, -2)]
    [InlineData("+10'", 10, Breath.Blow, -1)]
    [InlineData("+6o", 6, Breath.Blow, 1)]
    [InlineData("-11<", 11, Breath.Draw, 0, true)]
    public void NotesAreReadAndWritten(string text, int hole, Breath breath, int bend, bool slide = false)
    {
        Assert.Equal(new HarpNote(hole, breath, bend, slide), HarpNote.Parse(text));
        Assert.Equal(text, new HarpNote(hole, breath, bend, slide).ToString());
    }

    [Theory]
    [InlineData("")]
    [InlineData(null)]
    [InlineData("4")]
    [InlineData("+")]
    [InlineData("+0")]
    [InlineData("+17")]
    [InlineData("-3'o")]
    [InlineData("-3<'")]
    [InlineData("-3<<")]
    [InlineData("-3 ")]
    [InlineData("+-3")]
    public void OtherTextIsNotANote(string? text) => Assert.False(HarpNote.TryParse(text, out _));

    [Fact]
    public void EveryNoteSurvivesWritingAndReading() =>
        Gen.Select(Gen.Int[1, 16], Gen.Enum<Breath>(), Gen.Int[-4, 1]).Sample((hole, breath, bend) =>
            HarpNote.Parse(new HarpNote(hole, breath, bend).ToString()) == new HarpNote(hole, breath, bend));
}
