using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Instruments;

public class StringWeightTests
{
    private static readonly Length Scale = Length.FromInches(25.5);

    // Plain steel of 7850 kg/m³ on a scale of 25.5 inches, worked outside this project from T = μ (2 L f)² (textbook physics).
    [Theory]
    [InlineData(0.010, "E4", 3.97765e-4, 2.22739e-5, 72.52, 16.30)]
    [InlineData(0.012, "E4", 5.72782e-4, 3.20744e-5, 104.43, 23.48)]
    [InlineData(0.013, "B3", 6.72223e-4, 3.76429e-5, 68.79, 15.46)]
    [InlineData(0.016, "B3", 1.01828e-3, 5.70212e-5, 104.20, 23.42)]
    [InlineData(0.017, "G3", 1.14954e-3, 6.43715e-5, 74.10, 16.66)]
    public void APlainSteelStringPullsSo(double inches, string pitch, double kilogramsPerMetre, double poundsPerInch, double newtons, double pounds)
    {
        var weight = StringWeight.PlainSteel(Length.FromInches(inches));
        var tension = weight.Tension(Scale, Pitch.Parse(pitch).Frequency(Hertz.A440));
        Assert.Equal(kilogramsPerMetre, weight.KilogramsPerMetre, kilogramsPerMetre * 1e-5);
        Assert.Equal(poundsPerInch, weight.PoundsPerInch, poundsPerInch * 1e-5);
        Assert.Equal(newtons, tension.Value, 0.01);
        Assert.Equal(pounds, tension.PoundsForce, 0.01);
    }

    // A worked example of the trade's formula UW (2 L F)² / 386.4 (calculatorlib.com): 2.215e-5 lb/in at 329.63 Hz gives 16.2005 lbf.
    // 386.4 rounds standard gravity, 386.0886 in/s², up by 0.08 %.
    [Fact]
    public void ItAgreesWithTheTradesFormula() =>
        Assert.Equal(16.2005 * 386.4 / 386.0886, StringWeight.FromPoundsPerInch(2.215e-5).Tension(Scale, Hertz.FromHertz(329.63)).PoundsForce, 0.0005);

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    public void AStringWeighsSomething(double weight) => Assert.Throws<ArgumentOutOfRangeException>(() => StringWeight.FromPoundsPerInch(weight));
}
