using Harkbook.Listening.Estimators.Notes;

namespace Harkbook.Training.NoteWeights;

/// <summary>Stiff plucked strings on a wooden body, every property drawn at random for a piece.</summary>
internal sealed class StringSound
{
    private static readonly int Rate = LogSpectrum.Rate.Hertz;

    private readonly Random random;
    private readonly double slope, pick, decay, highDecay, stiffness, attack, noise;
    private readonly (double Hertz, double Gain, double Width)[] body;

    public StringSound(Random random)
    {
        this.random = random;
        (slope, pick) = (0.3 + random.NextDouble(), 0.08 + 0.25 * random.NextDouble());
        (decay, highDecay) = (1.5 + 4 * random.NextDouble(), 0.5 + 2.5 * random.NextDouble());
        stiffness = Math.Pow(10, -5 + 1.3 * random.NextDouble());
        attack = 10 + 260 * random.NextDouble() * random.NextDouble();
        noise = 0.05 + 0.35 * random.NextDouble();
        body = [.. Enumerable.Range(0, 9).Select(_ =>
            (80 * Math.Pow(30, random.NextDouble()), 4 * random.NextDouble() * random.NextDouble(), 0.03 + 0.3 * random.NextDouble()))];
    }

    public void Add(float[] samples, PlayedNote note)
    {
        var fundamental = 440 * Math.Pow(2, (note.Midi - 69 + 0.08 * (random.NextDouble() - 0.5)) / 12);
        var stiff = stiffness * Math.Pow(2, (note.Midi - 45) / 18.0);
        for (var n = 1; n <= 40; n++)
        {
            var hertz = n * fundamental * Math.Sqrt(1 + stiff * n * n);
            if (hertz > 9500)
                break;
            Partial(samples, note, n, hertz);
        }
        Scrape(samples, note);
    }

    private void Partial(float[] samples, PlayedNote note, int number, double hertz)
    {
        var loudness = note.Velocity / 127.0;
        var level = 0.12 * Math.Pow(loudness, 1.5) * Math.Pow(number, -slope - 0.8 * (1 - loudness))
            * (Math.Abs(Math.Sin(Math.PI * number * pick)) + 0.03) * Math.Min(1, hertz / 90)
            * (1 + body.Sum(b => b.Gain * Math.Exp(-Math.Pow(Math.Log(hertz / b.Hertz) / b.Width, 2))));
        var fall = Math.Exp(-6.9 / decay * (1 + highDecay * Math.Pow(hertz / 1000, 0.9)) / Rate);
        var (phase, beating, depth) = (2 * Math.PI * random.NextDouble(), 0.3 + 1.5 * random.NextDouble(), 0.3 * random.NextDouble());
        var (first, held) = ((int)(note.Onset * Rate), (int)((note.End - note.Onset) * Rate));
        for (var i = 0; i < held + 0.08 * Rate && first + i < samples.Length && level > 1e-6; i++, level *= fall)
        {
            var gate = Math.Min(1, i / attack) * (i > held ? Math.Exp((held - i) / 300.0) : 1);
            var beat = 1 - depth + depth * Math.Cos(2 * Math.PI * beating * i / Rate);
            samples[first + i] += (float)(level * gate * beat * Math.Sin(phase + 2 * Math.PI * hertz * i / Rate));
        }
    }

    /// <summary>The noise of the finger or pick.</summary>
    private void Scrape(float[] samples, PlayedNote note)
    {
        var (smooth, colour, length) = (0.0, 0.1 + 0.6 * random.NextDouble(), 80.0 + random.Next(350));
        var first = (int)(note.Onset * Rate);
        for (var i = 0; i < 5 * length && first + i < samples.Length; i++)
        {
            smooth += colour * (random.NextDouble() - 0.5 - smooth);
            samples[first + i] += (float)(0.15 * noise * Math.Pow(note.Velocity / 127.0, 1.5) * smooth * Math.Exp(-i / length));
        }
    }
}
