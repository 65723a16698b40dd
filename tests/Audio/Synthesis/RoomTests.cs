using Harkbook.Audio.Signals;
using Harkbook.Audio.Synthesis.Mixing;
using Harkbook.Units;

namespace Harkbook.Audio.Tests.Synthesis;

public class RoomTests
{
    [Theory]
    [InlineData(0.4)]
    [InlineData(1.2)]
    public void TheTailRingsAsLongAsAsked(double seconds)
    {
        // Backward integration of the squared impulse response: Schroeder, JASA 37, 1965. Low-passed, as the promise is for below 1 kHz.
        var impulse = new Signal(SampleRate.FromHertz(44_100), new float[88_200]);
        impulse.Channels[0][0] = 1;
        var tail = new Room(impulse.Rate, Seconds.FromSeconds(seconds)).Answer(impulse).Channels[0];
        var remaining = new double[tail.Length + 1];
        var low = 0.0;
        var smooth = tail.Select(x => low += 0.06 * (x - low)).ToArray();
        for (var i = tail.Length - 1; i >= 0; i--)
            remaining[i] = remaining[i + 1] + smooth[i] * smooth[i];
        int Reaches(double decibels) => Array.FindIndex(remaining, e => 10 * Math.Log10(e / remaining[0]) < decibels);
        Assert.InRange(2.0 * (Reaches(-35) - Reaches(-5)) / 44_100, 0.85 * seconds, 1.1 * seconds);
    }

    [Fact]
    public void TheTwoSidesDiffer()
    {
        var answer = new Room(SampleRate.FromHertz(44_100), Seconds.FromSeconds(0.5)).Answer(Measure.Sine(44_100, 300, 0.5));
        Assert.NotEqual(answer.Channels[0], answer.Channels[1]);
    }
}
