using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Synthesis;

/// <summary>A beat marked by a short wooden tick; the accented one is higher and a little louder.</summary>
public readonly record struct ClickBeat(Seconds At, bool Accented);

/// <summary>Sounds clicks.</summary>
public static class Click
{
    private const double LengthSeconds = 0.06;

    public static Signal Sound(SampleRate rate, IEnumerable<ClickBeat> beats, Seconds length)
    {
        var samples = new float[SynthesisRate.Required(rate).SamplesIn(length)];
        foreach (var beat in beats)
            Tick(samples, rate.SamplesIn(beat.At), rate.Hertz, beat.Accented ? 2100 : 1400, beat.Accented ? 0.6 : 0.4);
        return new(rate, samples);
    }

    private static void Tick(float[] samples, int at, double rate, double frequency, double level)
    {
        for (var i = Math.Max(0, -at); i < LengthSeconds * rate && at + i < samples.Length; i++)
        {
            var t = i / rate;
            var rise = Math.Min(1, t / 0.0007);
            var body = Math.Sin(2 * Math.PI * frequency * t) + 0.4 * Math.Sin(2 * Math.PI * 2.71 * frequency * t) * Math.Exp(-t / 0.004);
            samples[at + i] += (float)(level * rise * Math.Exp(-t / 0.009) * body);
        }
    }
}
