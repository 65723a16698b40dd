using Harkbook.Music.Analysis.Layers;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Analysis.Layers;

/// <summary>Worked outside this program from Sethares's parameters (JASA 94(3), 1993, later form: factors ±5, softer partial, 0.0207 and 18.96).</summary>
public class RoughnessTests
{
    [Theory]
    [InlineData(466.1638, 0.89868)]
    [InlineData(660, 0.00668)]
    [InlineData(440, 0)]
    public void PureTonesRub(double other, double roughness) =>
        Assert.Equal(roughness, Roughness.Of(new PureTone(Hertz.FromHertz(440), 1), new PureTone(Hertz.FromHertz(other), 1)), 5);

    // The curve's top: height 0.89878 where s times the distance is 0.22035.
    [Fact]
    public void TheCurveHasThePublishedTop()
    {
        var s = 0.24 / (0.0207 * 440 + 18.96);
        double At(double x) => Roughness.Of(new PureTone(Hertz.FromHertz(440), 1), new PureTone(Hertz.FromHertz(440 + x / s), 1));
        Assert.Equal(0.89878, At(0.22035), 5);
        Assert.True(At(0.22035) > At(0.2153) && At(0.22035) > At(0.2253));
    }

    [Theory]
    [InlineData(0, .1723)]
    [InlineData(1, 3.8508)]
    [InlineData(2, 2.7214)]
    [InlineData(3, 2.1525)]
    [InlineData(4, 1.9751)]
    [InlineData(5, 1.3357)]
    [InlineData(6, 1.9307)]
    [InlineData(7, .6936)]
    [InlineData(8, 1.8124)]
    [InlineData(9, 1.1834)]
    [InlineData(10, 1.4288)]
    [InlineData(11, 1.8871)]
    [InlineData(12, .1000)]
    public void IntervalsOnMiddleC(int semitones, double roughness) => Assert.Equal(roughness, Of(0, semitones), 4);

    [Theory]
    [InlineData("0 4 7", 4.3568)]
    [InlineData("0 3 7", 4.4980)]
    [InlineData("0 4 8", 5.3779)]
    [InlineData("0 3 6", 5.8520)]
    [InlineData("0 4 7 11", 8.1614)]
    [InlineData("0 4 7 10", 8.8910)]
    [InlineData("0 1 2", 10.2556)]
    public void ChordsOnMiddleC(string semitones, double roughness) => Assert.Equal(roughness, Of([.. semitones.Split(' ').Select(int.Parse)]), 4);

    private static double Of(params int[] semitones) => Roughness.Of(semitones.Select(s => Pitch.FromMidi(60 + s)), Hertz.A440);
}
