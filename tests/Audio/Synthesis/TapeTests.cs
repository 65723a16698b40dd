using Harkbook.Audio.Signals;
using Harkbook.Audio.Synthesis.Mixing;
using Harkbook.Units;

namespace Harkbook.Audio.Tests.Synthesis;

public class TapeTests
{
    [Theory]
    [InlineData(8.635, 1.005)] // speeds of ±0.5 % and 1 % in cents: 1200·log2(ratio)
    [InlineData(17.226, 1.01)]
    [InlineData(-31.767, 432.0 / 440)] // reference pitches: A = 432, 415, 442
    [InlineData(-101.271, 415.0 / 440)]
    [InlineData(7.851, 442.0 / 440)]
    [InlineData(-146.707, 44_100.0 / 48_000)] // a file made at 48 kHz marked 44.1 kHz
    public void AnOffsetInCentsShiftsPitchAndLengthByItsRatio(double cents, double ratio)
    {
        var tape = Tape.Play(Measure.Sine(44_100, 1000, 2), new(Cents.FromCents(cents), 0, 0, 1), -200, 1);
        Assert.InRange(Measure.Cents(1000 * ratio, Measure.Frequency(tape, 0.1, 1.5, 1000 * ratio)), -0.01, 0.01);
        Assert.InRange(tape.Length, 88_200 / ratio - 2, 88_200 / ratio + 2);
    }

    [Fact]
    public void AMomentFoundOnTheTapeWasPlayedWhenItSays()
    {
        var transport = new TapeTransport(Cents.FromCents(-23), 0.002, 0.0008, 5);
        for (var t = 0.0; t < 120; t += 3.7)
            Assert.Equal(t, transport.Played(transport.OnTape(Seconds.FromSeconds(t))).Value, 1e-9);
    }

    [Fact]
    public void AClickComesOffTheTapeWhereTheTransportSays()
    {
        var transport = new TapeTransport(Cents.FromCents(18), 0.003, 0.001, 2);
        var rate = SampleRate.FromHertz(44_100);
        var sound = new Signal(rate, new float[132_300]);
        sound.Channels[0][100_000] = 1;
        var heard = Tape.Play(sound, transport, -200, 1).Channels[0];
        var peak = Array.IndexOf(heard, heard.Max());
        Assert.InRange(peak - transport.OnTape(rate.TimeOf(100_000)).Value * 44_100, -1, 1);
    }

    [Fact]
    public void PlayingFastDoesNotFoldTheHighestSoundsBack()
    {
        var tape = Tape.Play(Measure.Sine(44_100, 21_900, 1), new(Cents.FromCents(100), 0, 0, 1), -200, 1);
        Assert.InRange(Measure.Decibels(Measure.Rms(tape, 0.1, 0.7)), double.NegativeInfinity, -40);
    }

    [Fact]
    public void HissHasTheLevelAskedFor()
    {
        var silence = new Signal(SampleRate.FromHertz(44_100), new float[44_100]);
        Assert.Equal(-66, Measure.Decibels(Measure.Rms(Tape.Play(silence, new(default, 0, 0, 1), -66, 1), 0, 1)), 0.3);
    }
}
