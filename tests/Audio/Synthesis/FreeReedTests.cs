using Harkbook.Audio.Signals;
using Harkbook.Audio.Synthesis.Reeds;
using Harkbook.Units;

namespace Harkbook.Audio.Tests.Synthesis;

public class FreeReedTests
{
    [Theory]
    [InlineData(261.6256)] // C4
    [InlineData(587.3295)] // D5
    [InlineData(2093.0045)] // C7, the highest reed of a C harmonica
    public void AHeldReedSettlesOnItsPitch(double frequency)
    {
        var sound = Sound(new ReedNote(default, Seconds.FromSeconds(3), Hertz.FromHertz(frequency), 0.7));
        var beforeVibrato = Measure.Frequency(sound, 0.15, 0.15, frequency);
        Assert.InRange(Measure.Cents(frequency, beforeVibrato), -2, 2);
    }

    [Theory]
    [InlineData(22_050)]
    [InlineData(44_100)]
    public void NothingFoldsBackBelowAHighReed(int rate)
    {
        var sound = Sound(rate, new ReedNote(default, Seconds.FromSeconds(2), Hertz.FromHertz(1567.98), 1));
        var level = Measure.Level(sound, 0.5, 1, 1567.98);
        for (var f = 100; f < 1300; f += 50)
            Assert.InRange(Measure.Decibels(Measure.Level(sound, 0.5, 1, f) / level), double.NegativeInfinity, -55);
    }

    [Fact]
    public void TheAttackIsSlowAndThePitchStartsLow()
    {
        var sound = Sound(new ReedNote(Seconds.FromSeconds(0.2), Seconds.FromSeconds(2), Hertz.FromHertz(440), 0.7));
        Assert.All(sound.Channels[0].Take(8820), x => Assert.Equal(0, x));
        Assert.True(Measure.Rms(sound, 0.2, 0.008) < 0.3 * Measure.Rms(sound, 0.3, 0.1));
        Assert.True(Measure.Frequency(sound, 0.205, 0.05, 440, 60) < Measure.Frequency(sound, 0.35, 0.1, 440, 60));
    }

    [Fact]
    public void TwoReedsSoundTogether()
    {
        var sound = Sound(
            new ReedNote(default, Seconds.FromSeconds(2), Hertz.FromHertz(440), 0.7),
            new ReedNote(default, Seconds.FromSeconds(2), Hertz.FromHertz(554.37), 0.7));
        Assert.True(Measure.Level(sound, 0.5, 1, 440) > 0.02);
        Assert.True(Measure.Level(sound, 0.5, 1, 554.37) > 0.02);
    }

    private static Signal Sound(params ReedNote[] notes) => Sound(44_100, notes);

    private static Signal Sound(int rate, params ReedNote[] notes) => new FreeReed(SampleRate.FromHertz(rate), 1).Sound(notes, Seconds.FromSeconds(3.2));
}
