using Harkbook.Audio.Synthesis.Mixing;
using Harkbook.Units;

namespace Harkbook.Audio.Tests.Synthesis;

public class ClickTests
{
    [Fact]
    public void ClicksStartOnTheirSampleAndTheAccentIsLouder()
    {
        var sound = Click.Sound(SampleRate.FromHertz(44_100), [new(Seconds.FromSeconds(0.5), true), new(Seconds.FromSeconds(1), false)],
            Seconds.FromSeconds(1.5));
        var samples = sound.Channels[0];
        Assert.InRange(Array.FindIndex(samples, x => x != 0), 22_050, 22_052);
        Assert.InRange(Array.FindIndex(samples, 40_000, x => x != 0), 44_100, 44_102);
        Assert.True(samples.Take(40_000).Max(Math.Abs) > 1.3 * samples.Skip(44_100).Max(Math.Abs));
        Assert.True(samples.Max(Math.Abs) <= 1);
    }
}
