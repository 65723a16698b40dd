using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Synthesis.Reeds;

/// <summary>
/// Free reeds blown by a player, as on a harmonica: a band-limited asymmetric pulse, breath noise, an attack of some
/// 30 ms in which the pitch rises a little, and vibrato of the breath on held notes. Notes that overlap are reeds
/// sounding together.
/// </summary>
public sealed class FreeReed(SampleRate rate, int seed)
{
    private const double AttackSeconds = 0.03;
    private const double ReleaseSeconds = 0.05;
    private readonly double hertz = SynthesisRate.Required(rate).Hertz;

    public Signal Sound(IEnumerable<ReedNote> notes, Seconds length, CancellationToken ct = default) => Blocks(notes, length, ct).Gathered(rate);

    /// <summary>The same a block at a time.</summary>
    public IEnumerable<float[]> Blocks(IEnumerable<ReedNote> notes, Seconds length, CancellationToken ct)
    {
        var noise = new Noise(seed);
        return NoteBuffer.Blocks(rate.SamplesIn(length), [.. notes.Select(n => (rate.SamplesIn(n.At), n))], (note, buffer) => SoundOne(note, buffer, noise),
            ct);
    }

    private void SoundOne(ReedNote note, NoteBuffer buffer, Noise noise)
    {
        var start = rate.SamplesIn(note.At);
        var held = Math.Max(0.02, (note.Until - note.At).Value);
        var table = new HarmonicTable(Harmonics(note.Frequency.Value, note.Strength));
        var breath = RunningFilter.BandPass(2500, 0.8, rate);
        var phase = (noise.Next() + 1) / 2;
        var vibratoPhase = noise.Next() * Math.PI;
        var end = Math.Min(buffer.Length, start + (int)((held + ReleaseSeconds) * hertz));
        var first = Math.Max(0, start);
        var samples = buffer.Reach(first, end);
        for (var n = first; n < end; n++)
        {
            var t = (n - start) / hertz;
            var vibrato = Math.Clamp((t - 0.3) / 0.4, 0, 1) * Math.Sin(2 * Math.PI * 5.1 * t + vibratoPhase);
            var cents = (note.Bend.Value - 18) * Math.Exp(-t / 0.035) + 9 * vibrato;
            phase += note.Frequency.Value * Math.Pow(2, cents / 1200) / hertz;
            phase -= Math.Floor(phase);
            var envelope = Envelope(t, held) * note.Strength * (1 + 0.15 * vibrato);
            samples[n - first] += (float)(envelope * (0.22 * table.At(phase) + 0.02 * breath.Next(noise.Next())));
        }
    }

    private static double Envelope(double t, double held)
    {
        var attack = Smooth(t / AttackSeconds);
        return t < held ? attack : attack * Smooth(1 - (t - held) / ReleaseSeconds);
    }

    private static double Smooth(double x)
    {
        var c = Math.Clamp(x, 0, 1);
        return c * c * (3 - 2 * c);
    }

    /// <summary>A pulse open for a third of the cycle, darker when blown softly, with the hand's broad resonance about 1.8 kHz.</summary>
    private List<(double, double)> Harmonics(double frequency, double strength)
    {
        var corner = 1500 + 3500 * strength;
        var harmonics = new List<(double Amplitude, double Phase)>();
        for (var h = 1; h <= HarmonicTable.Fitting(frequency, hertz); h++)
        {
            var f = h * frequency;
            var pulse = Math.Abs(Math.Sin(Math.PI * h * 0.31)) / Math.Pow(h, 0.8) + 0.08 / h;
            var hand = 1 + 0.8 * Math.Exp(-Math.Pow(Math.Log2(f / 1800), 2));
            harmonics.Add((pulse * hand / (1 + Math.Pow(f / corner, 2)), h * h * 0.35));
        }
        var rms = Math.Sqrt(harmonics.Sum(x => x.Amplitude * x.Amplitude) / 2);
        return [.. harmonics.Select(x => (x.Amplitude / rms, x.Phase))];
    }
}
