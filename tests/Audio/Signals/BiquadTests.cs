using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Tests.Signals;

public class BiquadTests
{
    private static readonly SampleRate rate = SampleRate.FromHertz(44_100);
    private static readonly Hertz corner = Hertz.FromHertz(1000);

    // Butterworth: −3.0103 dB at the corner, any order (S. Butterworth 1930); the cookbook's shelves stand at half their gain in dB there.
    [Fact]
    public void GainsAtTheCornerAreTheTextbookOnes()
    {
        Assert.Equal(-3.0103, At(Biquad.HighPass(rate, corner, Math.Sqrt(0.5)), 1000), 1e-3);
        Assert.Equal(-3.0103, At(Biquad.LowPass(rate, corner, Math.Sqrt(0.5)), 1000), 1e-3);
        Assert.Equal(3, At(Biquad.HighShelf(rate, corner, Math.Sqrt(0.5), 6), 1000), 1e-6);
        Assert.Equal(3, At(Biquad.LowShelf(rate, corner, Math.Sqrt(0.5), 6), 1000), 1e-6);
    }

    [Fact]
    public void GainsFarFromTheCornerAreTheirLimits()
    {
        Assert.Equal(6, At(Biquad.HighShelf(rate, corner, 0.7, 6), 22_049), 1e-3);
        Assert.Equal(0, At(Biquad.HighShelf(rate, corner, 0.7, 6), 0.1), 1e-3);
        Assert.Equal(6, At(Biquad.LowShelf(rate, corner, 0.7, 6), 0.1), 1e-3);
        Assert.Equal(0, At(Biquad.LowPass(rate, corner, 0.7), 0.1), 1e-3);
        Assert.True(At(Biquad.HighPass(rate, corner, 0.7), 10) < -79);
    }

    [Fact]
    public void FilteredToneHasTheGainThatTheFormulaSays()
    {
        var filter = Biquad.HighPass(rate, corner, 0.7071);
        var filtered = filter.Filter(Tones.Sine(300, 44_100, 44_100));
        Assert.Equal(filter.GainAt(Hertz.FromHertz(300), rate), Tones.Rms(filtered[22_050..]) * Math.Sqrt(2), 1e-4);
    }

    [Fact]
    public void CornerAboveHalfTheRateIsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Biquad.HighPass(rate, Hertz.FromHertz(22_050), 0.7));

    private static double At(Biquad filter, double hertz) => Tones.Decibels(filter.GainAt(Hertz.FromHertz(hertz), rate));
}
