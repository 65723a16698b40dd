using System.Numerics;
using Harkbook.Audio.Signals;

namespace Harkbook.Audio.Tests.Signals;

public class RealFftTests
{
    [Theory]
    [InlineData(4)]
    [InlineData(8)]
    [InlineData(64)]
    [InlineData(1024)]
    public void ForwardIsTheDefiningSum(int size)
    {
        var frame = Tones.Noise(1, size);
        var spectrum = new Bin[size / 2 + 1];
        new RealFft(size).Forward(frame, spectrum);
        for (var k = 0; k < spectrum.Length; k++)
        {
            var sum = Complex.Zero;
            for (var n = 0; n < size; n++)
                sum += frame[n] * Complex.FromPolarCoordinates(1, -2 * Math.PI * k * n / size);
            Assert.Equal(sum.Real, spectrum[k].Real, 2e-6 * size);
            Assert.Equal(sum.Imaginary, spectrum[k].Imaginary, 2e-6 * size);
        }
    }

    [Theory]
    [InlineData(4)]
    [InlineData(256)]
    [InlineData(8192)]
    public void InverseGivesTheFrameBack(int size)
    {
        var (fft, frame, back) = (new RealFft(size), Tones.Noise(2, size), new float[size]);
        var spectrum = new Bin[fft.Bins];
        fft.Forward(frame, spectrum);
        fft.Inverse(spectrum, back);
        for (var n = 0; n < size; n++)
            Assert.Equal(frame[n], back[n], 1e-5);
    }

    // A sine of amplitude a on bin k: |X[k]| = a·N/2, and no other bin (the definition of the DFT). Float rounding is the floor.
    [Theory]
    [InlineData(2048, 100)]
    [InlineData(16384, 4321)]
    public void SineOnABinStandsAlone(int size, int bin)
    {
        var magnitudes = new float[size / 2 + 1];
        new RealFft(size).Magnitudes(Tones.Sine(bin, size, size, 0.5), magnitudes);
        Assert.Equal(size / 4.0, magnitudes[bin], size * 1e-5);
        magnitudes[bin] = 0;
        Assert.True(Tones.Decibels(magnitudes.Max() / (size / 4.0)) < -110, $"{Tones.Decibels(magnitudes.Max() / (size / 4.0))} dB");
    }

    [Fact]
    public void SizesThatDoNotFitAreRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new RealFft(1000));
        Assert.Throws<ArgumentException>(() => new RealFft(8).Magnitudes(new float[8], new float[8]));
    }
}
