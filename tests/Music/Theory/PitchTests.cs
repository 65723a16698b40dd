using Harkbook.Music.Theory;

namespace Harkbook.Music.Tests.Theory;

public class PitchTests
{
    // The octave number follows the letter: MusicXML 4.0, type "octave" (4 starts at middle C).
    [Theory]
    [InlineData("C4", 60)]
    [InlineData("Cb4", 59)]
    [InlineData("B#3", 60)]
    [InlineData("E2", 40)]
    [InlineData("A4", 69)]
    public void PitchNamesGiveMidiNumbers(string text, int midi) => Assert.Equal(midi, Pitch.Parse(text).Midi);
}
