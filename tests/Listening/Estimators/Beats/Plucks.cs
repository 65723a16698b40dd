using System.Collections.Concurrent;
using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators.Beats;

/// <summary>Plucked strings and clicks at known times, for sound whose beats are known.</summary>
internal sealed class Plucks
{
    /// <summary>Every note is worked out once: the same note sounds in many tests.</summary>
    private static readonly ConcurrentDictionary<(int Midi, double Decay, int Rate), float[]> Ringing = new();

    private readonly float[] samples;
    private readonly int rate;

    public Plucks(double seconds, int rate = 16000) => (samples, this.rate) = (new float[(int)(seconds * rate)], rate);

    public Signal Signal => new(SampleRate.FromHertz(rate), samples);

    public void Click(double time, double strength = 0.5)
    {
        var start = (int)Math.Round(time * rate);
        for (var n = 0; n < rate / 50 && start + n < samples.Length; n++)
            samples[start + n] += (float)(strength * Math.Exp(-n / (0.004 * rate)) * Math.Sin(2 * Math.PI * 1000 * n / rate));
    }

    /// <summary>A string that starts at a time: six harmonics, the higher ones weaker and shorter.</summary>
    public void Note(double time, int midi, double strength, double decay = 0.7)
    {
        var start = (int)Math.Round(time * rate);
        var ringing = Ringing.GetOrAdd((midi, decay, rate), static note => Ring(note.Midi, note.Decay, note.Rate));
        for (var n = 0; n < ringing.Length && start + n < samples.Length; n++)
            samples[start + n] += (float)strength * ringing[n];
    }

    private static float[] Ring(int midi, double decay, int rate)
    {
        var hertz = 440 * Math.Pow(2, (midi - 69) / 12.0);
        var ring = new float[(int)(5 * decay * rate)];
        for (var harmonic = 1; harmonic <= 6 && hertz * harmonic < 0.45 * rate; harmonic++)
        {
            for (var n = 0; n < ring.Length; n++)
            {
                var edge = Math.Min(Math.Min(1, n / (0.003 * rate)), (ring.Length - n) / (0.1 * rate));
                ring[n] += (float)(0.1 / harmonic * edge * Math.Exp(-n * harmonic / (decay * rate)) * Math.Sin(2 * Math.PI * hertz * harmonic * n / rate));
            }
        }
        return ring;
    }

    public void Strum(double time, int[] midi, double strength)
    {
        for (var s = 0; s < midi.Length; s++)
            Note(time + 0.006 * s, midi[s], strength);
    }

    public void Noise(int seed, double strength)
    {
        var random = new Random(seed);
        for (var n = 0; n < samples.Length; n++)
            samples[n] += (float)(strength * (2 * random.NextDouble() - 1));
    }
}
