using Harkbook.Audio.Isolation;
using Harkbook.Audio.Signals;
using Harkbook.Audio.Tests.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Tests.Isolation;

public class SoundPartTests
{
    private const int Rate = 22_050;
    private const int Length = 2 * Rate;

    private static SoundPart Part(string text) => SoundPart.TryParse(text, out var part) ? part! : throw new ArgumentException($"{text} is no part");

    private static Signal Of(string text, params float[][] channels) => Part(text)
        .Of(new Signal(SampleRate.FromHertz(Rate), channels), TestContext.Current.CancellationToken);

    private static float[] Inner(float[] samples) => samples[4000..^4000];

    /// <summary>The level of a sine in a sound, by correlation over whole seconds.</summary>
    private static double LevelAt(float[] samples, double hertz)
    {
        double real = 0, imaginary = 0;
        for (var n = Rate / 2; n < Rate / 2 + Rate; n++)
        {
            real += samples[n] * Math.Cos(2 * Math.PI * hertz * n / Rate);
            imaginary += samples[n] * Math.Sin(2 * Math.PI * hertz * n / Rate);
        }
        return 2 * Math.Sqrt(real * real + imaginary * imaginary) / Rate;
    }

    [Fact]
    public void MidAndSideMakeTheChannelsAgain()
    {
        var (left, right) = (Tones.Noise(1, 500), Tones.Noise(2, 500));
        var (mid, side) = (Of("mid", left, right).Channels[0], Of("side", left, right).Channels[0]);
        Assert.Equal(left, mid.Zip(side, (m, s) => m + s), (a, b) => Math.Abs(a - b) < 1e-6);
        Assert.Equal(right, mid.Zip(side, (m, s) => m - s), (a, b) => Math.Abs(a - b) < 1e-6);
        Assert.Equal(left, Of("left", left, right).Channels[0]);
        Assert.Equal(right, Of("right", left, right).Channels[0]);
    }

    // Equal-power law (common practice in mixing): at place p from −1 to 1 the channels get cos and sin of (p + 1)·45°.
    [Theory]
    [InlineData("pan:-100..-40", 440)]
    [InlineData("pan:-20..20", 800)]
    [InlineData("pan:40..100", 1500)]
    public void APlaceInThePictureKeepsWhatStandsThere(string text, double wanted)
    {
        (double Hertz, double Place)[] sources = [(440, -0.7), (800, 0), (1500, 0.7)];
        var (left, right) = (new float[Length], new float[Length]);
        foreach (var (hertz, place) in sources)
        {
            var sine = Tones.Sine(hertz, Rate, Length, 0.3);
            for (var n = 0; n < Length; n++)
            {
                left[n] += (float)(sine[n] * Math.Cos((place + 1) * Math.PI / 4));
                right[n] += (float)(sine[n] * Math.Sin((place + 1) * Math.PI / 4));
            }
        }
        var kept = Of(text, left, right);
        foreach (var (hertz, _) in sources)
        {
            var level = Math.Sqrt(kept.Channels.Sum(c => Math.Pow(LevelAt(c, hertz), 2)));
            var decibels = Tones.Decibels(level / 0.3);
            Assert.True(hertz == wanted ? Math.Abs(decibels) < 0.5 : decibels < -30, $"{hertz} Hz at {decibels:0.0} dB");
        }
    }

    [Fact]
    public void HeldStruckAndRestAddUpToTheSound()
    {
        // The three masks are exclusive and cover every bin: Driedger, Müller and Disch, ISMIR 2014, section 2.
        var sound = Struck(Tones.Sine(500, Rate, Length, 0.2)).Zip(Tones.Noise(3, Length), (a, b) => a + 0.01f * b).ToArray();
        var sum = new float[Length];
        foreach (var name in new[] { "held", "struck", "rest" })
        {
            var part = Of(name, sound).Channels[0];
            for (var n = 0; n < Length; n++)
                sum[n] += part[n];
        }
        Assert.Equal(sound, sum, (a, b) => Math.Abs(a - b) < 1e-4);
    }

    [Fact]
    public void ASineIsHeldAndClicksAreStruck()
    {
        var sound = Struck(Tones.Sine(500, Rate, Length, 0.2));
        var (held, struck) = (Of("held", sound).Channels[0], Of("struck", sound).Channels[0]);
        Assert.InRange(LevelAt(held, 500), 0.19, 0.21);
        Assert.True(LevelAt(struck, 500) < 0.02);
        Assert.True(Inner(struck).Max() > 0.5, "the clicks are among what is struck");
        Assert.True(Inner(held).Max() < 0.35, "and not among what is held");
    }

    // A Butterworth filter of order n: |H|² = 1/(1 + (f/f₀)^2n). At f₀ −3.01 dB, an octave beyond for n = 4 −24.1 dB.
    [Theory]
    [InlineData(200, -3.01)]
    [InlineData(100, -24.1)]
    [InlineData(1600, -3.01)]
    [InlineData(566, 0)]
    public void ABandFallsAsAButterworthFilterDoes(double hertz, double decibels)
    {
        var level = LevelAt(Of("band:200..1600", Tones.Sine(hertz, Rate, Length, 0.5)).Channels[0], hertz);
        Assert.Equal(decibels, Tones.Decibels(level / 0.5), 0.5);
    }

    [Fact]
    public void BlocksJoinWithoutASeam()
    {
        // Longer than any block that the parts are made in.
        float[][] sound = [Tones.Noise(4, 300_000), Tones.Noise(5, 300_000)];
        var parts = new[] { "held", "struck", "rest" }.Select(name => Of(name, sound)).ToArray();
        var filters = new[] { 0.5411961, 1.3065630 }.SelectMany(q => new[]
        {
            Biquad.HighPass(SampleRate.FromHertz(Rate), Hertz.FromHertz(200), q), Biquad.LowPass(SampleRate.FromHertz(Rate), Hertz.FromHertz(1600), q),
        }).ToArray();
        for (var c = 0; c < 2; c++)
        {
            Assert.Equal(sound[c], sound[c].Select((_, n) => parts.Sum(p => p.Channels[c][n])), (a, b) => Math.Abs(a - b) < 1e-4);
            Assert.Equal(filters.Aggregate(sound[c], (samples, filter) => filter.Filter(samples)), Of("band:200..1600", sound).Channels[c]);
        }
    }

    [Fact]
    public void PartsAreTakenOneOfAnother()
    {
        var (left, right) = (Tones.Sine(300, Rate, Length, 0.3), Tones.Sine(3000, Rate, Length, 0.3));
        var kept = Of("right+band:200..1000", left, right).Channels[0];
        Assert.True(Inner(kept).Max() < 0.02);
    }

    [Theory]
    [InlineData("centre")]
    [InlineData("pan:10..-10")]
    [InlineData("pan:-200..0")]
    [InlineData("band:0..100")]
    [InlineData("band:100")]
    [InlineData("left+")]
    public void WhatIsNoPartIsRefused(string text) => Assert.False(SoundPart.TryParse(text, out _));

    private static float[] Struck(float[] sound)
    {
        for (var n = 6000; n < sound.Length; n += 9000)
            sound[n] += 0.9f;
        return sound;
    }
}
