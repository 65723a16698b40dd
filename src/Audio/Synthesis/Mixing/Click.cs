using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Synthesis.Mixing;

/// <summary>A beat marked by a short wooden tick; the accented one is higher and a little louder.</summary>
public readonly record struct ClickBeat(Seconds At, bool Accented);

/// <summary>Sounds clicks.</summary>
public static class Click
{
    private const double LengthSeconds = 0.06;

    public static Signal Sound(SampleRate rate, IEnumerable<ClickBeat> beats, Seconds length) =>
        Blocks(rate, beats, length, CancellationToken.None).Gathered(rate);

    /// <summary>The same a block at a time.</summary>
    public static IEnumerable<float[]> Blocks(SampleRate rate, IEnumerable<ClickBeat> beats, Seconds length, CancellationToken ct) =>
        NoteBuffer.Blocks(SynthesisRate.Required(rate).SamplesIn(length), [.. beats.Select(b => (rate.SamplesIn(b.At), b))],
            (beat, buffer) => Tick(beat, rate, buffer), ct);

    private static void Tick(ClickBeat beat, SampleRate rate, NoteBuffer buffer)
    {
        var at = rate.SamplesIn(beat.At);
        var samples = buffer.Reach(Math.Max(0, at), at + (int)Math.Ceiling(LengthSeconds * rate.Hertz));
        Tick(samples, Math.Max(0, -at), rate.Hertz, beat.Accented ? 2100 : 1400, beat.Accented ? 0.6 : 0.4);
    }

    /// <param name="unheard">Samples of the tick that lie before the sound's start.</param>
    private static void Tick(Span<float> samples, int unheard, double rate, double frequency, double level)
    {
        for (var i = unheard; i < unheard + samples.Length; i++)
        {
            var t = i / rate;
            var rise = Math.Min(1, t / 0.0007);
            var body = Math.Sin(2 * Math.PI * frequency * t) + 0.4 * Math.Sin(2 * Math.PI * 2.71 * frequency * t) * Math.Exp(-t / 0.004);
            samples[i - unheard] += (float)(level * rise * Math.Exp(-t / 0.009) * body);
        }
    }
}
