using Harkbook.Audio.Synthesis.Voices;
using Harkbook.Units;

namespace Harkbook.Training.Fretting;

/// <summary>
/// A piece on stiff strings written as formulas, all else drawn at random: partials at n·f₁·√((1 + B·n²)/(1 + B)), moved a little by the body
/// (low ones most), in two polarisations, higher at first where struck hard; strings a little out of tune; half of them in a room, a third under a voice.
/// </summary>
internal sealed class StiffSound
{
    private const int Rate = 22_050, Length = 40;
    private readonly Random random;
    private readonly ThrownGuitar guitar;
    private readonly double slope, pick, decay, highDecay, attack, noise, unevenness, glide, coupling;
    private readonly double[] off;
    private readonly (double Hertz, double Gain, double Width)[] body;

    public StiffSound(Random random, ThrownGuitar guitar)
    {
        (this.random, this.guitar) = (random, guitar);
        var nylon = guitar.Set.IsNylon;
        (slope, pick) = (0.4 + 1.4 * random.NextDouble() + (nylon ? 0.3 : 0) + 0.2 * guitar.Age, 0.08 + 0.25 * random.NextDouble());
        (decay, highDecay) = ((nylon ? 1.5 : 2) + 4 * random.NextDouble(), (nylon ? 0.8 : 0.3) * Math.Pow(10, random.NextDouble()) * (1 + guitar.Age));
        (attack, noise) = (10 + 150 * random.NextDouble() * random.NextDouble(), 0.05 + 0.35 * random.NextDouble());
        (unevenness, glide) = (0.2 + 0.8 * random.NextDouble(), 8 * random.NextDouble() * random.NextDouble());
        coupling = 0.2 + 0.5 * random.NextDouble();
        off = [.. Enumerable.Range(0, 8).Select(_ => 4 * ThrownGuitar.Normal(random))];
        body = [.. Enumerable.Range(0, 9).Select(_ =>
            (80 * Math.Pow(30, random.NextDouble()), 4 * random.NextDouble() * random.NextDouble(), 0.03 + 0.3 * random.NextDouble()))];
    }

    /// <summary>Samples at 22.05 kHz, within ±0.7.</summary>
    public static float[] Of(MadePiece piece, ThrownGuitar guitar, Random random)
    {
        var samples = new float[(int)(piece.Length * Rate)];
        var sound = new StiffSound(random, guitar);
        foreach (var note in piece.Notes)
            sound.Add(samples, note);
        if (random.Next(3) == 0)
            Sing(samples, piece, random);
        if (random.Next(2) == 0)
            NoteWeights.Room.Furnish(samples, random);
        var gain = 0.7f / (samples.Max(Math.Abs) + 1e-6f);
        var hiss = Math.Pow(10, -2 - 1.8 * random.NextDouble());
        return [.. samples.Select(x => (float)(x * gain + hiss * (random.NextDouble() - 0.5)))];
    }

    private void Add(float[] samples, PlayedNote note)
    {
        var first = 440 * Math.Pow(2, (note.Midi - 69 + (off[note.StringIndex] + ThrownGuitar.Normal(random)) / 100) / 12);
        var b = Math.Pow(10, guitar.LogB(note.StringIndex, note.Fret));
        var hard = note.Strength;
        for (var n = 1; n <= Length; n++)
        {
            var hertz = n * first * Math.Sqrt((1 + b * n * n) / (1 + b));
            if (hertz > 9800)
                break;
            var moved = coupling * (1 + 8 * Math.Exp(-hertz / 200)) * ThrownGuitar.Normal(random);
            Partial(samples, note, n, hertz * Math.Pow(2, moved / 1200), hard);
        }
        Scrape(samples, note, hard);
    }

    private void Partial(float[] samples, PlayedNote note, int number, double hertz, double hard)
    {
        var level = 0.12 * Math.Pow(hard, 1.5) * Math.Pow(number, -slope - 0.8 * (1 - hard)) * Math.Exp(unevenness * ThrownGuitar.Normal(random))
            * (Math.Abs(Math.Sin(Math.PI * number * pick)) + 0.03) * Math.Min(1, hertz / 90)
            * (1 + body.Sum(b => b.Gain * Math.Exp(-Math.Pow(Math.Log(hertz / b.Hertz) / b.Width, 2))));
        var fall = 6.9 / decay * (1 + highDecay * Math.Pow(hertz / 1000, 0.9)) * Math.Exp(0.2 * ThrownGuitar.Normal(random));
        var share = 0.15 + 0.5 * random.NextDouble();
        Ring(samples, note, hertz, level * (1 - share), fall, hard);
        Ring(samples, note, hertz + 0.5 * ThrownGuitar.Normal(random), level * share, fall * (0.25 + 0.6 * random.NextDouble()), hard);
    }

    private void Ring(float[] samples, PlayedNote note, double hertz, double level, double fall, double hard)
    {
        var (first, held) = ((int)(note.Onset * Rate), (int)((note.End - note.Onset) * Rate));
        var (x, y) = (level * Math.Cos(0.5 * Math.PI * random.NextDouble()), level * Math.Sin(0.5 * Math.PI * random.NextDouble()));
        var (damp, sharp) = (Math.Exp(-fall / Rate), glide * hard * hard);
        for (var i = 0; i < held + 0.06 * Rate && first + i < samples.Length && level > 2e-6;)
        {
            // Pitch falls back within some tenths of a second.
            var turn = 2 * Math.PI * hertz * Math.Pow(2, sharp * Math.Exp(-i / (0.15 * Rate)) / 1200) / Rate;
            var (sin, cos) = Math.SinCos(turn);
            for (var end = i + 128; i < end && first + i < samples.Length; i++)
            {
                (x, y) = (damp * (x * cos - y * sin), damp * (x * sin + y * cos));
                level *= damp;
                var gate = (i < 4 * attack ? 1 - Math.Exp(-i / attack) : 1) * (i > held ? Math.Exp((held - i) / 300.0) : 1);
                samples[first + i] += (float)(gate * y);
            }
        }
    }

    /// <summary>The noise of the finger or pick.</summary>
    private void Scrape(float[] samples, PlayedNote note, double hard)
    {
        var (smooth, colour, length) = (0.0, 0.1 + 0.6 * random.NextDouble(), 80.0 + random.Next(350));
        var first = (int)(note.Onset * Rate);
        for (var i = 0; i < 5 * length && first + i < samples.Length; i++)
        {
            smooth += colour * (random.NextDouble() - 0.5 - smooth);
            samples[first + i] += (float)(0.15 * noise * Math.Pow(hard, 1.5) * smooth * Math.Exp(-i / length));
        }
    }

    private static void Sing(float[] samples, MadePiece piece, Random random)
    {
        var tones = new List<VoiceTone>();
        Vowel[] vowels = [.. Vowel.All];
        for (var time = 1 + random.NextDouble(); time < piece.Length - 2;)
        {
            var (held, chord) = (0.25 + random.NextDouble(), piece.Chords.LastOrDefault(c => c.Start <= time)?.Chord);
            var classes = chord?.PitchClasses.ToArray() ?? [0, 4, 7];
            var midi = Enumerable.Range(55, 20).Where(m => classes.Contains(m % 12)).OrderBy(_ => random.Next()).First();
            tones.Add(new(Seconds.FromSeconds(time), Seconds.FromSeconds(time + 0.9 * held), Hertz.FromHertz(440 * Math.Pow(2, (midi - 69) / 12.0)), 0.7,
                vowels[random.Next(vowels.Length)]));
            time += held * (random.Next(4) == 0 ? 2.5 : 1);
        }
        var sung = new VoiceLike(SampleRate.FromHertz(Rate), random.Next()).Sound(tones, Seconds.FromSeconds(piece.Length)).Channels[0];
        var gain = Loud(samples) / (Loud(sung) + 1e-9) * (0.4 + 0.8 * random.NextDouble());
        for (var i = 0; i < Math.Min(samples.Length, sung.Length); i++)
            samples[i] += (float)(gain * sung[i]);
    }

    private static double Loud(float[] samples) => Math.Sqrt(samples.Average(s => (double)s * s));
}
