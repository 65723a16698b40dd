using Harkbook.Audio.Recordings.Samples;
using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Tests.Signals;

/// <summary>Whatever stretch of a sound is read, and however the sound is held, the samples are those of the whole.</summary>
public class SoundViewsTests
{
    private static readonly SampleRate rate = SampleRate.FromHertz(22_050);
    private static readonly Signal whole = new(rate, Tones.Noise(1, 5000), Tones.Noise(2, 5000));

    public static TheoryData<int, int> Stretches { get; } = new()
    {
        { 0, 5000 }, { 0, 1 }, { 4999, 1 }, { 1234, 777 }, { -300, 700 }, { 4900, 600 }, { -100, 5200 }, { -50, 50 }, { 5000, 10 }, { 9000, 5 }, { 17, 0 },
    };

    [Theory]
    [MemberData(nameof(Stretches))]
    public void AStretchHoldsTheSamplesThereAndZerosBeyond(int start, int length)
    {
        using var stored = Stored(whole, 1000);
        for (var c = 0; c < 2; c++)
        {
            var expected = Stretch(whole.Channels[c], start, length);
            Assert.Equal(expected, whole.Cut(start, length).Channels[c]);
            Assert.Equal(expected, stored.Cut(start, length).Channels[c]);
        }
    }

    [Theory]
    [MemberData(nameof(Stretches))]
    public void TheMeanOfAllChannelsIsTheSameInStretches(int start, int length)
    {
        using var stored = Stored(whole, 1000);
        Assert.Equal(Stretch(whole.ToMono().Channels[0], start, length), stored.ToMono().Cut(start, length).Channels[0]);
    }

    // Rates whose ratio has few steps, many, and more than the filter has rows.
    [Theory]
    [InlineData(11_025)]
    [InlineData(44_100)]
    [InlineData(24_696)]
    [InlineData(19_624)]
    [InlineData(22_049)]
    public void AnotherRateIsTheSameInStretches(int to)
    {
        var expected = Resampler.Resample(whole, SampleRate.FromHertz(to));
        using var stored = Stored(whole, 300);
        var sound = stored.At(SampleRate.FromHertz(to));
        Assert.Equal((expected.Length, expected.Rate), (sound.Length, sound.Rate));
        var random = new Random(3);
        for (var i = 0; i < 60; i++)
        {
            var (start, length) = (random.Next(-400, expected.Length + 100), random.Next(0, 900));
            Assert.Equal(Stretch(expected.Channels[i % 2], start, length), Read(sound, i % 2, start, length));
        }
    }

    // One frame, one short of a piece of 128, just one, one more, and two and a bit.
    [Theory]
    [InlineData(0)]
    [InlineData(1269)]
    [InlineData(1279)]
    [InlineData(1280)]
    [InlineData(3333)]
    public void SpectraAreThoseOfFramesCutByHand(int length)
    {
        var (mono, window) = (new Signal(rate, Tones.Noise(5, length)), Window.Hann(300));
        var spectrogram = Spectrogram.Of(mono, 512, 10, window, TestContext.Current.CancellationToken);
        Assert.Equal(1 + length / 10, spectrogram.Frames);
        var (fft, magnitudes) = (new RealFft(512), new float[257]);
        for (var f = 0; f < spectrogram.Frames; f++)
        {
            fft.Magnitudes([.. Stretch(mono.Channels[0], 10 * f - 150, 300).Zip(window, (x, w) => x * w), .. new float[212]], magnitudes);
            Assert.Equal(magnitudes, spectrogram.Frame(f).ToArray());
        }
    }

    [Fact]
    public void SeveralThreadsMayReadAtOnce()
    {
        using var stored = Stored(whole, 1000);
        var sound = stored.ToMono().At(SampleRate.FromHertz(44_100));
        var expected = sound.Cut(0, sound.Length).Channels[0];
        Parallel.For(0, 200, i => Assert.Equal(expected[(40 * i)..(40 * i + 500)], Read(sound, 0, 40 * i, 500)));
    }

    private static StoredSound Stored(Signal signal, int block) => StoredSound.Of(signal.Rate, Enumerable.Range(0, (signal.Length + block - 1) / block)
        .Select(b => signal.Channels.Select(c => c[(b * block)..Math.Min(signal.Length, (b + 1) * block)]).ToArray()));

    private static float[] Read(ISound sound, int channel, int start, int length)
    {
        var samples = Enumerable.Repeat(float.NaN, length).ToArray();
        sound.Read(channel, start, samples);
        return samples;
    }

    private static float[] Stretch(float[] samples, int start, int length) =>
        [.. Enumerable.Range(start, length).Select(n => n >= 0 && n < samples.Length ? samples[n] : 0)];
}
