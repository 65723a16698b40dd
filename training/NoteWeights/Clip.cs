using Harkbook.Listening.Estimators.Notes;

namespace Harkbook.Training.NoteWeights;

/// <summary>A piece as sound with the notes that made it.</summary>
internal sealed record Clip(float[] Samples, List<PlayedNote> Notes)
{
    private const double Length = 12;

    private static readonly int[] Others = [22, 52, 53, 0, 33, 73, 40, 22, 52];

    public static Clip Make(int index, int seed, FontSound font)
    {
        var random = new Random(seed * 1000 + index);
        var notes = GuitarPiece.Make(random, Length);
        var samples = index % 9 < 6 ? Strings(notes, random) : font.Render(notes, 24 + random.Next(4), Length);
        if (random.NextDouble() < 0.25)
            notes = [.. notes, .. Joined(samples, random, font)];
        Room.Furnish(samples, random);
        return new(samples, notes);
    }

    private static float[] Strings(List<PlayedNote> notes, Random random)
    {
        var samples = new float[(int)(Length * LogSpectrum.Rate.Hertz)];
        var sound = new StringSound(random);
        foreach (var note in notes)
            sound.Add(samples, note);
        return samples;
    }

    private static List<PlayedNote> Joined(float[] samples, Random random, FontSound font)
    {
        var program = Others[random.Next(Others.Length)];
        var (lowest, highest) = program == 33 ? (36, 55) : (55, 86);
        var midi = random.Next(lowest + 3, lowest + 18);
        var notes = new List<PlayedNote>();
        for (var time = 2 * random.NextDouble(); time < Length - 1;)
        {
            var duration = 0.15 + 0.8 * random.NextDouble();
            midi = Math.Clamp(midi + random.Next(-4, 5), lowest, highest);
            notes.Add(new(midi, time, time + 0.9 * duration, 6, 60 + random.Next(50)));
            time += duration * (random.NextDouble() < 0.2 ? 2 : 1);
        }
        var other = font.Render(notes, program, Length);
        var gain = Level(samples) / (Level(other) + 1e-6) * (0.3 + 0.7 * random.NextDouble());
        for (var i = 0; i < samples.Length; i++)
            samples[i] += (float)(gain * other[i]);
        return notes;
    }

    private static double Level(float[] samples) => Math.Sqrt(samples.Average(s => (double)s * s));
}
