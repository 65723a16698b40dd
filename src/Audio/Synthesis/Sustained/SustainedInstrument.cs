using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Synthesis.Sustained;

/// <summary>A blown or bowed instrument: band-limited partials, noise of breath or bow, a soft start, and glides as the player makes them.</summary>
public sealed class SustainedInstrument(SampleRate rate, SustainedTimbre timbre, int seed)
{
    private const double ReleaseSeconds = 0.04, Level = 0.3;
    private readonly double hertz = SynthesisRate.Required(rate).Hertz;

    /// <summary>A block at a time.</summary>
    public IEnumerable<float[]> Blocks(IEnumerable<SustainedNote> notes, Seconds length, CancellationToken ct)
    {
        var noise = new Noise(seed);
        return NoteBuffer.Blocks(rate.SamplesIn(length), [.. notes.Select(n => (rate.SamplesIn(n.At), n))], (note, buffer) => SoundOne(note, buffer, noise),
            ct);
    }

    private void SoundOne(SustainedNote note, NoteBuffer buffer, Noise noise)
    {
        var (start, held) = (rate.SamplesIn(note.At), Math.Max(0.03, (note.Until - note.At).Value));
        var table = new HarmonicTable(Partials(note.Frequency.Raised(note.Motion.Highest).Value));
        var (breath, phase) = (RunningFilter.BandPass(timbre.NoiseCentre.Value, 0.8, rate), 0.0);
        var (first, end) = (Math.Max(0, start), Math.Min(buffer.Length, start + (int)((held + ReleaseSeconds) * hertz)));
        var samples = buffer.Reach(first, end);
        for (var n = first; n < end; n++)
        {
            var t = (n - start) / hertz;
            phase += note.Frequency.Value * Math.Pow(2, note.Motion.IsStill ? 0 : note.Motion.At(t, held).Value / 1200) / hertz;
            phase -= Math.Floor(phase);
            samples[n - first] += (float)(Level * note.Strength * Envelope(t, held) * (table.At(phase) + timbre.Noise * breath.Next(noise.Next())));
        }
    }

    private double Envelope(double t, double held) => Smooth(t / timbre.Attack.Value) * (t < held ? 1 : Smooth(1 - (t - held) / ReleaseSeconds));

    private static double Smooth(double x)
    {
        var c = Math.Clamp(x, 0, 1);
        return c * c * (3 - 2 * c);
    }

    /// <summary>Their phases spread, so that no edge of the wave clicks.</summary>
    private List<(double, double)> Partials(double highest)
    {
        var partials = Enumerable.Range(1, HarmonicTable.Fitting(highest, hertz))
            .Select(h => (Amplitude: Math.Pow(h, -timbre.PartialFall), Phase: h * h * 0.35)).ToList();
        var rms = Math.Sqrt(partials.Sum(x => x.Amplitude * x.Amplitude) / 2);
        return [.. partials.Select(x => (x.Amplitude / rms, x.Phase))];
    }
}
