using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Theory;

/// <summary>Arithmetic of cents: 1200 log2 of a ratio. Standard pitch is ISO 16:1975, A4 = 440 Hz.</summary>
public class TuningArithmeticTests
{
    [Theory]
    [InlineData(432, -31.767)]
    [InlineData(435, -19.786)]
    [InlineData(436, -15.810)]
    [InlineData(442, 7.851)]
    [InlineData(444, 15.667)]
    [InlineData(415, -101.271)]
    [InlineData(430.54, -37.627)]
    public void ReferencePitchesAreOffStandard(double a4, double cents) =>
        Assert.Equal(cents, Cents.Between(Hertz.A440, Hertz.FromHertz(a4)).Value, 3);

    [Theory]
    [InlineData(5.0 / 4, 386.314)]
    [InlineData(3.0 / 2, 701.955)]
    [InlineData(7.0 / 4, 968.826)]
    [InlineData(81.0 / 80, 21.506)]
    [InlineData(25.0 / 24, 70.672)]
    [InlineData(48000.0 / 44100, 146.707)]
    public void RatiosHaveSizes(double ratio, double cents) =>
        Assert.Equal(cents, Cents.Between(Hertz.A440, Hertz.A440 * ratio).Value, 3);

    // A string's partials against equal temperament: why an octave or a fifth is mistaken for the note.
    [Theory]
    [InlineData(2, "E3", 0)]
    [InlineData(3, "B3", 2.0)]
    [InlineData(5, "G#4", -13.7)]
    [InlineData(7, "D5", -31.2)]
    [InlineData(9, "F#5", 3.9)]
    [InlineData(11, "A#5", -48.7)]
    public void PartialsOfTheLowString(int partial, string pitch, double cents)
    {
        var low = Pitch.Parse("E2").Frequency(Hertz.A440);
        Assert.Equal(cents, Cents.Between(Pitch.Parse(pitch).Frequency(Hertz.A440), low * partial).Value, 1);
    }
}
