using Harkbook.Audio.Signals;
using Harkbook.Listening.Estimators.Notes;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators.Notes;

public class LogSpectrumTests
{
    // A window's response to its own frequency is 1 by definition, and a Hann window's falls to half at one over its length.
    [Theory]
    [InlineData(45)]
    [InlineData(69)]
    [InlineData(93)]
    public void ASineOfAmplitudeOneGivesOneAtItsOwnBin(int midi)
    {
        var frequency = 440 * Math.Pow(2, (midi - 69) / 12.0);
        var samples = Enumerable.Range(0, 22_050).Select(n => (float)Math.Sin(2 * Math.PI * frequency * n / 22_050)).ToArray();

        var spectrum = LogSpectrum.Of(new Signal(LogSpectrum.Rate, samples), Hertz.A440, null, TestContext.Current.CancellationToken);

        var frame = spectrum.Long.Length / 2;
        Assert.Equal(1, spectrum.Long[frame][LogSpectrum.BinOf(midi)], 0.01);
        Assert.Equal(1, spectrum.Short[frame][LogSpectrum.BinOf(midi)], 0.02);
        Assert.Equal(LogSpectrum.BinOf(midi), Array.IndexOf(spectrum.Long[frame], spectrum.Long[frame].Max()));
        Assert.InRange(spectrum.Long[frame][LogSpectrum.BinOf(midi + 5)], 0, 0.02);
    }

    [Fact]
    public void AnotherRateIsRefusedWithItsName()
    {
        var wrong = new Signal(SampleRate.FromHertz(44_100), new float[100]);

        var refusal = Assert.Throws<ArgumentException>(() => LogSpectrum.Of(wrong, Hertz.A440, null, TestContext.Current.CancellationToken));
        Assert.Contains("44100", refusal.Message);
    }
}
