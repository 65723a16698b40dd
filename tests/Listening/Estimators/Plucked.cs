using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators;

/// <summary>
/// A plain string synthesizer for known answers: decaying partials at n·f·√(1 + B·n²) (the textbook stiff string),
/// those of higher number weaker and shorter.
/// </summary>
internal sealed class Plucked(int rate, double seconds, double a4 = 440)
{
    private const double Stiffness = 5e-5;

    private readonly float[] samples = new float[(int)(rate * seconds)];

    public Plucked Note(double midi, double onset, double length, double amplitude = 0.15, double vibratoCents = 0)
    {
        var fundamental = a4 * Math.Pow(2, (midi - 69) / 12);
        for (var n = 1; n <= 14 && n * fundamental < 0.4 * rate; n++)
            Partial(n * fundamental * Math.Sqrt(1 + Stiffness * n * n), n, onset, length, amplitude, vibratoCents);
        return this;
    }

    public Plucked Chord(double onset, double length, params int[] midi)
    {
        for (var i = 0; i < midi.Length; i++)
            Note(midi[i], onset + 0.008 * i, length - 0.008 * i, 0.1);
        return this;
    }

    /// <summary>Repeatable noise, uniform in ± the amplitude.</summary>
    public Plucked Noise(double amplitude)
    {
        var random = new Random(7);
        for (var i = 0; i < samples.Length; i++)
            samples[i] += (float)(amplitude * (2 * random.NextDouble() - 1));
        return this;
    }

    public Signal Signal => new(SampleRate.FromHertz(rate), samples);

    private void Partial(double hertz, int number, double onset, double length, double amplitude, double vibratoCents)
    {
        var phase = 0.7 * number;
        var (first, count) = ((int)(onset * rate), (int)(length * rate));
        for (var i = 0; i < count && first + i < samples.Length; i++)
        {
            var time = (double)i / rate;
            var decay = Math.Exp(-time * (1 + 0.5 * number)) * Math.Min(1, time / 0.002) * Math.Min(1, (length - time) / 0.02);
            samples[first + i] += (float)(amplitude * Math.Pow(number, -1.1) * decay * Math.Sin(phase));
            phase += 2 * Math.PI * hertz / rate * Math.Pow(2, vibratoCents / 1200 * Math.Sin(2 * Math.PI * 5.5 * time));
        }
    }
}
