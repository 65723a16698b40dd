using Harkbook.Audio.Synthesis.Strings;
using Harkbook.Units;

namespace Harkbook.Audio.Tests.Synthesis;

public class StringInstrumentTests
{
    [Fact]
    public void AFullStrokeStaysWithinFullScaleAndIsHeard()
    {
        double[] open = [82.41, 110, 146.83, 196, 246.94, 329.63]; // standard tuning, common practice
        var strings = open.Select(f => new[] { new Pluck(default, Seconds.FromSeconds(3), Hertz.FromHertz(f), 1) }).ToArray();
        var sound = new StringInstrument(SampleRate.FromHertz(44_100), StringSet.Steel, 1)
            .Sound(strings, Seconds.FromSeconds(2), TestContext.Current.CancellationToken);
        Assert.InRange(sound.Channels[0].Max(Math.Abs), 0.1f, 1f);
        Assert.All(open, f => Assert.True(Measure.Level(sound, 0.1, 1, f) > 1e-3));
    }
}
