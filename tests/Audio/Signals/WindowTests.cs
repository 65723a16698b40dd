using Harkbook.Audio.Signals;

namespace Harkbook.Audio.Tests.Signals;

public class WindowTests
{
    private static readonly Dictionary<string, Func<int, float[]>> windows = new()
    {
        ["Hann"] = Window.Hann, ["Hamming"] = Window.Hamming, ["Blackman"] = Window.Blackman, ["Blackman-Harris"] = Window.BlackmanHarris,
    };

    // Harris (1978), table 1; these digits from scipy 1.10's periodic windows of 2048 samples.
    [Theory]
    [InlineData("Hann", 0.5, 1.5000, 1.424)]
    [InlineData("Hamming", 0.54, 1.3628, 1.751)]
    [InlineData("Blackman", 0.42, 1.7268, 1.099)]
    [InlineData("Blackman-Harris", 0.35875, 2.0044, 0.826)]
    public void FiguresOfMeritAreThePublishedOnes(string name, double coherentGain, double noiseBandwidthBins, double scallopingDecibels)
    {
        var window = windows[name](2048);
        var sum = window.Sum(w => (double)w);
        Assert.Equal(coherentGain, sum / 2048, 1e-5);
        Assert.Equal(noiseBandwidthBins, 2048 * window.Sum(w => (double)w * w) / (sum * sum), 1e-4);
        Assert.Equal(scallopingDecibels, -Tones.Decibels(HalfABinAway(window) / sum), 1e-3);
    }

    [Fact]
    public void WindowsArePeriodic()
    {
        foreach (var window in windows.Values.Select(make => make(64)))
        {
            Assert.Equal(1, window[32], 1e-6);
            Assert.All(Enumerable.Range(1, 31), n => Assert.Equal(window[n], window[64 - n], 1e-6));
        }
    }

    private static double HalfABinAway(float[] window)
    {
        var sum = System.Numerics.Complex.Zero;
        for (var n = 0; n < window.Length; n++)
            sum += window[n] * System.Numerics.Complex.FromPolarCoordinates(1, -Math.PI * n / window.Length);
        return sum.Magnitude;
    }
}
