using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Tests.Signals;

public class SpectrogramTests
{
    [Fact]
    public void ClickIsStrongestInTheFrameCentredOnIt()
    {
        var samples = new float[10_000];
        samples[40 * 100] = 1;
        var spectrogram = Spectrogram.Of(Tones.Mono(8000, samples), 512, 100, Window.Hann(512), TestContext.Current.CancellationToken);
        var loudest = Enumerable.Range(0, spectrogram.Frames).MaxBy(f => spectrogram.Magnitudes[f, 10]);
        Assert.Equal(40, loudest);
        Assert.Equal(1, spectrogram.Magnitudes[40, 10], 1e-5);
        Assert.Equal(0.5, spectrogram.TimeOf(40).Value, 1e-12);
    }

    // Frames and bins: 1 + length/hop and size/2 + 1, the same as librosa.stft(center=True), librosa 0.10 documentation.
    [Theory]
    [InlineData(0, 1)]
    [InlineData(99, 1)]
    [InlineData(100, 2)]
    [InlineData(1050, 11)]
    public void ShapeFollowsLengthAndHop(int length, int frames)
    {
        var spectrogram = Spectrogram.Of(Tones.Mono(8000, new float[length]), 256, 100, Window.Hann(256), TestContext.Current.CancellationToken);
        Assert.Equal((frames, 129), (spectrogram.Frames, spectrogram.Bins));
    }

    // Coherent gain of Hann is 1/2 (Harris 1978), so a sine of amplitude 1 on a bin gives N/4.
    [Fact]
    public void ToneStandsAtItsFrequencyWithItsLevel()
    {
        var spectrogram = Spectrogram.Of(Tones.Mono(44_100, Tones.Sine(100 * 44_100 / 4096.0, 44_100, 20_000)), 4096, 512, Window.Hann(4096),
            TestContext.Current.CancellationToken);
        Assert.Equal(44_100 / 4096.0, spectrogram.BinHertz, 1e-12);
        Assert.Equal(1024, spectrogram.Magnitudes[20, 100], 0.1);
    }

    [Fact]
    public void ShortWindowIsPaddedAndStillCentred()
    {
        var samples = new float[4000];
        samples[2000] = 1;
        var spectrogram = Spectrogram.Of(Tones.Mono(8000, samples), 1024, 250, Window.Hann(256), TestContext.Current.CancellationToken);
        Assert.Equal(1, spectrogram.Magnitudes[8, 0], 1e-5);
        Assert.Equal(0, spectrogram.Magnitudes[9, 0], 1e-5);
    }

    [Fact]
    public void CancelledWorkStops() =>
        Assert.ThrowsAny<OperationCanceledException>(() =>
            Spectrogram.Of(Tones.Mono(8000, new float[8000]), 256, 10, Window.Hann(256), new CancellationToken(canceled: true)));

    [Fact]
    public void StereoIsRefused() =>
        Assert.Throws<ArgumentException>(() =>
            Spectrogram.Of(new Signal(SampleRate.FromHertz(8000), new float[100], new float[100]), 256, 64, Window.Hann(256),
                TestContext.Current.CancellationToken));
}
