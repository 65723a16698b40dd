using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Tests.Signals;

public class LoudnessTests
{
    private static readonly SampleRate studio = SampleRate.FromHertz(48_000);

    // ITU-R BS.1770-4, annex 1, tables 1 and 2 (48 kHz).
    [Fact]
    public void FiltersAt48KilohertzAreTheTables()
    {
        AssertFilter(new(1.53512485958697, -2.69169618940638, 1.19839281085285, -1.69065929318241, 0.73248077421585), KWeighting.Head(studio));
        AssertFilter(new(1, -2, 1, -1.99004745483398, 0.99007225036621), KWeighting.LowCut(studio));
    }

    // The same design at 44.1 kHz as libebur128 computes it.
    [Fact]
    public void FiltersAt44KilohertzAreTheSameDesign()
    {
        var rate = SampleRate.FromHertz(44_100);
        AssertFilter(new(1.5308412300503478, -2.6509799951547297, 1.169079079921587, -1.6636551132560204, 0.7125954280732254), KWeighting.Head(rate));
        AssertFilter(new(1, -2, 1, -1.989169673629796, 0.9891990357870393), KWeighting.LowCut(rate));
    }

    // ITU-R BS.1770-4, annex 1: a 997 Hz sine at 0 dBFS in one channel reads −3.01 LKFS. The gain of both filters there is +0.6910 dB.
    [Fact]
    public void FullScaleSineReadsMinusThree()
    {
        var loudness = LoudnessMeter.Integrated(Tones.Mono(48_000, Tones.Sine(997, 48_000, 480_000)));
        Assert.Equal(-3.01, loudness!.Value.Lufs, 0.01);
    }

    // Gains computed from the standard's tables.
    [Theory]
    [InlineData(25, -10.393)]
    [InlineData(82.4, -1.639)]
    [InlineData(1000, 0.6977)]
    [InlineData(4000, 3.968)]
    [InlineData(10_000, 4.042)]
    public void WeightingHasTheStandardsGain(double hertz, double decibels)
    {
        var at = Hertz.FromHertz(hertz);
        Assert.Equal(decibels, Tones.Decibels(KWeighting.Head(studio).GainAt(at, studio) * KWeighting.LowCut(studio).GainAt(at, studio)), 2e-3);
    }

    // EBU Tech 3341, minimum requirements test signals 1 to 5: stereo 1 kHz sines, (seconds, dBFS peak) …; tolerance 0.1 LU.
    [Theory]
    [InlineData(-23.0, 20.0, -23.0)]
    [InlineData(-33.0, 20.0, -33.0)]
    [InlineData(-23.0, 10.0, -36.0, 60.0, -23.0, 10.0, -36.0)]
    [InlineData(-23.0, 10.0, -72.0, 10.0, -36.0, 60.0, -23.0, 10.0, -36.0, 10.0, -72.0)]
    [InlineData(-23.0, 20.0, -26.0, 20.1, -20.0, 20.0, -26.0)]
    public void GatingFollowsTheTestSignals(double expected, params double[] parts)
    {
        foreach (var rate in (int[])[48_000, 44_100])
        {
            var samples = parts.Chunk(2).SelectMany(p => Tones.Sine(1000, rate, (int)(rate * p[0]), Math.Pow(10, p[1] / 20))).ToArray();
            Assert.Equal(expected, LoudnessMeter.Integrated(new Signal(SampleRate.FromHertz(rate), samples, samples))!.Value.Lufs, 0.1);
        }
    }

    [Fact]
    public void SilenceHasNoLoudness()
    {
        Assert.Null(LoudnessMeter.Integrated(Tones.Mono(48_000, new float[96_000])));
        Assert.Null(LoudnessMeter.Integrated(Tones.Mono(48_000, new float[100])));
    }

    // A sine at a quarter of the rate, 45° off, is sampled at 0.7071 of its peak: −9.03 dBFS samples, −6.02 dBTP (BS.1770-4, annex 2; faded in).
    [Fact]
    public void TruePeakSeesBetweenTheSamples()
    {
        var samples = Tones.Sine(12_000, 48_000, 48_000, 0.5, Math.PI / 4);
        for (var n = 0; n < 4800; n++)
            samples[n] *= n / 4800f;
        for (var n = 0; n < 4800; n++)
            samples[47_999 - n] *= n / 4800f;
        Assert.Equal(-9.03, Tones.Decibels(samples.Max()), 0.01);
        Assert.Equal(-6.02, LoudnessMeter.TruePeak(Tones.Mono(48_000, samples)), 0.05);
    }

    [Fact]
    public void EvenLevelReachesItsTarget()
    {
        var level = EvenLevel.At(Tones.Mono(48_000, Tones.Sine(440, 48_000, 96_000, 0.01)), Loudness.FromLufs(-18));
        Assert.Equal(-18, LoudnessMeter.Integrated(level)!.Value.Lufs, 0.01);
    }

    [Fact]
    public void EvenLevelKeepsBelowTheCeiling()
    {
        var samples = Tones.Sine(440, 48_000, 96_000, 0.001);
        samples[50_000] = 0.9f;
        var level = EvenLevel.At(Tones.Mono(48_000, samples), Loudness.FromLufs(-14));
        Assert.Equal(EvenLevel.Ceiling, LoudnessMeter.TruePeak(level), 0.01);
    }

    [Fact]
    public void EvenLevelLeavesSilenceAlone() =>
        Assert.All(EvenLevel.At(Tones.Mono(48_000, new float[48_000]), Loudness.FromLufs(-18)).Channels[0], s => Assert.Equal(0, s));

    private static void AssertFilter(Biquad expected, Biquad actual)
    {
        Assert.Equal(expected.B0, actual.B0, 1e-13);
        Assert.Equal(expected.B1, actual.B1, 1e-13);
        Assert.Equal(expected.B2, actual.B2, 1e-13);
        Assert.Equal(expected.A1, actual.A1, 1e-13);
        Assert.Equal(expected.A2, actual.A2, 1e-13);
    }
}
