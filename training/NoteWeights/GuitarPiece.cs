namespace Harkbook.Training.NoteWeights;

/// <summary>A random piece on a guitar in a random tuning: strums, picking, melodies over a bass; damped or ringing.</summary>
internal sealed class GuitarPiece
{
    private static readonly int[][] Tunings =
    [
        [40, 45, 50, 55, 59, 64], [40, 45, 50, 55, 59, 64], [40, 45, 50, 55, 59, 64], [38, 45, 50, 55, 59, 64], [38, 45, 50, 55, 57, 62],
        [38, 45, 50, 54, 57, 62], [38, 43, 50, 55, 59, 62], [36, 43, 48, 55, 60, 64], [39, 44, 49, 54, 58, 63], [40, 47, 52, 56, 59, 64],
    ];

    private static readonly int[][] Chords =
    [
        [0, 4, 7], [0, 4, 7], [0, 4, 7], [0, 3, 7], [0, 3, 7], [0, 4, 7, 10], [0, 3, 7, 10], [0, 4, 7, 11], [0, 5, 7], [0, 2, 7], [0, 7],
    ];

    private static readonly int[] Roots = [0, 5, 7, 9, 2, 4, 10];
    private static readonly int[] Scale = [0, 2, 4, 5, 7, 9, 11];

    private readonly Random random;
    private readonly double length;
    private readonly double beat;
    private readonly int key;
    private readonly int[] open;
    private readonly bool damped;
    private readonly List<PlayedNote> notes = [];
    private readonly PlayedNote?[] ringing = new PlayedNote?[6];

    private GuitarPiece(Random random, double length)
    {
        (this.random, this.length) = (random, length);
        var capo = random.NextDouble() < 0.4 ? random.Next(1, 6) : 0;
        open = [.. Tunings[random.Next(Tunings.Length)].Select(p => p + capo)];
        beat = 60 / (60 + 110 * random.NextDouble());
        key = random.Next(12);
        damped = random.NextDouble() < 0.25;
    }

    public static List<PlayedNote> Make(Random random, double length)
    {
        var piece = new GuitarPiece(random, length);
        piece.Play();
        return [.. piece.notes.OrderBy(n => n.Onset)];
    }

    private void Play()
    {
        var (style, position) = (random.Next(5), Position());
        for (var time = 0.1 + 0.3 * random.NextDouble(); time < length - 0.5;)
        {
            if (random.NextDouble() < 0.15)
                (style, position) = (random.Next(5), Position());
            var shape = Shape((key + Roots[random.Next(Roots.Length)]) % 12, Chords[random.Next(Chords.Length)], position);
            var end = time + random.Next(2, 5) * beat;
            if (style < 2)
                Strum(shape, time, end);
            else if (style < 4)
                Pick(shape, time, end);
            else
                Melody(shape, time, end);
            time = end;
        }
    }

    private int Position() => random.Next(3) == 0 ? random.Next(3, 9) : 0;

    /// <summary>The pitch on each string that sounds, within five frets; null where a string is silent.</summary>
    private int?[] Shape(int root, int[] chord, int position)
    {
        var shape = open.Select(o => Enumerable.Range(o + position, 5).Where(p => chord.Contains((p - root + 120) % 12)).Select(p => (int?)p).FirstOrDefault()).ToArray();
        var bass = Array.FindIndex(shape, p => p % 12 == root);
        for (var s = 0; s < bass; s++)
            shape[s] = random.NextDouble() < 0.7 ? null : shape[s];
        shape[5] = random.NextDouble() < 0.2 ? null : shape[5];
        return shape;
    }

    private void Strum(int?[] shape, double from, double to)
    {
        var step = beat / (random.Next(2) == 0 ? 2 : random.Next(2) == 0 ? 1 : 4);
        for (var time = from; time < to - 0.01; time += step)
        {
            if (time > from && random.NextDouble() < 0.3)
                continue;
            var strings = Enumerable.Range(0, 6).Where(s => shape[s] is not null).ToList();
            if (random.NextDouble() > 0.6)
                strings.Reverse();
            if (random.NextDouble() < 0.35)
                strings = [.. strings.Take(random.Next(2, 5))];
            var (spread, velocity, place) = (0.005 + 0.035 * random.NextDouble(), 60 + random.Next(50), 0);
            foreach (var s in strings)
                Sound(s, shape[s]!.Value, time + spread * place++ / 5, to - time, velocity + random.Next(-10, 10));
        }
    }

    private void Pick(int?[] shape, double from, double to)
    {
        var step = beat / (random.Next(3) == 0 ? 4 : 2);
        var strings = Enumerable.Range(0, 6).Where(s => shape[s] is not null).ToArray();
        for (var (time, i) = (from, 0); strings.Length > 0 && time < to - 0.01; time += step, i++)
        {
            var s = strings[random.Next(i % 4 == 0 ? Math.Min(2, strings.Length) : strings.Length)];
            Sound(s, shape[s]!.Value, time + 0.01 * random.NextDouble(), to - time + beat, 60 + random.Next(50));
            var other = strings[random.Next(strings.Length)];
            if (other != s && random.NextDouble() < 0.25)
                Sound(other, shape[other]!.Value, time + 0.01 * random.NextDouble(), to - time, 60 + random.Next(50));
        }
    }

    private void Melody(int?[] shape, double from, double to)
    {
        var bass = Array.FindIndex(shape, p => p is not null);
        if (bass >= 0)
            Sound(bass, shape[bass]!.Value, from, to - from, 70 + random.Next(30));
        var midi = random.Next(60, 80);
        for (var time = from; time < to - 0.01; time += beat / 2)
        {
            midi = Math.Clamp(midi + random.Next(-4, 5), 56, 84);
            while (!Scale.Contains((midi - key + 12) % 12))
                midi++;
            var s = Array.FindLastIndex(open, o => o <= midi);
            if (random.NextDouble() > 0.2 && s >= 2)
                Sound(s, midi, time, beat / 2 * (0.6 + 1.2 * random.NextDouble()), 65 + random.Next(45));
        }
    }

    private void Sound(int s, int midi, double onset, double duration, int velocity)
    {
        if (onset > length - 0.3)
            return;
        if (ringing[s] is { } before && before.End > onset)
        {
            notes.Remove(before);
            if (onset - before.Onset > 0.035)
                notes.Add(before with { End = onset - 0.005 });
        }
        var held = damped ? Math.Min(duration, 0.06 + 0.2 * random.NextDouble()) : duration;
        var note = new PlayedNote(midi, onset, Math.Min(onset + held, length - 0.05), s, Math.Clamp(velocity, 25, 120));
        notes.Add(note);
        ringing[s] = note;
    }
}
