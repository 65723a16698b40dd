using Harkbook.Audio.Synthesis;

namespace Harkbook.Audio.Tests.Synthesis;

public class NoiseTests
{
    [Fact]
    public void TheGeneratorGivesThePublishedNumbers()
    {
        // SplitMix64 from the state 1234567: its widely published first outputs (Vigna's splitmix64.c; from memory).
        ulong[] published = [6457827717110365317, 3203168211198807973, 9817491932198370423];
        var noise = new Noise(1_234_567);
        foreach (var bits in published)
            Assert.Equal((bits >> 11) * Math.Pow(2, -52) - 1, noise.Next(), 1e-15);
    }

    [Fact]
    public void NormalNumbersHaveMean0AndDeviation1()
    {
        var noise = new Noise(3);
        var numbers = Enumerable.Range(0, 20_000).Select(_ => noise.NextNormal()).ToArray();
        Assert.Equal(0, numbers.Average(), 0.03);
        Assert.Equal(1, Math.Sqrt(numbers.Average(x => x * x)), 0.03);
    }
}
