namespace Harkbook.Training.SecondInstrument;

/// <summary>A guitar's accompaniment (or solo) in a key: strums, a thumb and a strum, picked patterns, single lines.</summary>
internal sealed class Backing
{
    private static readonly int[][] Tunings =
        [[40, 45, 50, 55, 59, 64], [40, 45, 50, 55, 59, 64], [40, 45, 50, 55, 59, 64], [38, 45, 50, 55, 59, 64], [38, 43, 50, 55, 59, 62], [38, 45, 50, 54, 57, 62]];

    private static readonly (int Root, int[] Tones)[][] Progressions =
    [
        [(0, [0, 4, 7, 10]), (5, [0, 4, 7, 10]), (0, [0, 4, 7, 10]), (7, [0, 4, 7, 10])],
        [(0, [0, 4, 7]), (0, [0, 4, 7]), (5, [0, 4, 7]), (0, [0, 4, 7]), (7, [0, 4, 7]), (5, [0, 4, 7])],
        [(0, [0, 4, 7]), (7, [0, 4, 7]), (9, [0, 3, 7]), (5, [0, 4, 7])],
        [(0, [0, 4, 7]), (2, [0, 3, 7]), (5, [0, 4, 7]), (7, [0, 4, 7, 10])],
        [(0, [0, 4, 7]), (10, [0, 4, 7]), (5, [0, 4, 7]), (0, [0, 4, 7])],
    ];

    private static readonly (int Root, int[] Tones)[][] MinorProgressions =
    [
        [(0, [0, 3, 7]), (5, [0, 3, 7]), (0, [0, 3, 7]), (7, [0, 3, 7])],
        [(0, [0, 3, 7]), (10, [0, 4, 7]), (8, [0, 4, 7]), (10, [0, 4, 7])],
        [(0, [0, 3, 7]), (5, [0, 4, 7]), (0, [0, 3, 7]), (10, [0, 4, 7])],
    ];

    private readonly Random random;
    private readonly double length, beat;
    private readonly int[] open;
    private readonly List<GuitarNote> notes = [];
    private readonly GuitarNote?[] ringing = new GuitarNote?[6];

    private Backing(Random random, double length, double beat)
    {
        (this.random, this.length, this.beat) = (random, length, beat);
        var capo = random.NextDouble() < 0.35 ? random.Next(1, 6) : 0;
        open = [.. Tunings[random.Next(Tunings.Length)].Select(p => p + capo)];
    }

    public static List<GuitarNote> Make(Random random, double length, double beat, int tonic, bool minor, bool solo)
    {
        var backing = new Backing(random, length, beat);
        backing.Play(tonic, minor, solo);
        return [.. backing.notes.OrderBy(n => n.Onset)];
    }

    private void Play(int tonic, bool minor, bool solo)
    {
        var choices = minor ? MinorProgressions : Progressions;
        var progression = choices[random.Next(choices.Length)];
        var (style, bar) = (random.Next(solo ? 6 : 5), 0);
        for (var time = 0.2; time < length - 1; time += 4 * beat, bar++)
        {
            if (bar % 8 == 7 && random.NextDouble() < 0.4)
                style = random.Next(solo ? 6 : 5);
            var (root, tones) = progression[bar % progression.Length];
            var shape = Shape((tonic + root) % 12, tones);
            PlayBar(style, shape, (tonic + root) % 12, tones, time);
        }
    }

    private void PlayBar(int style, int?[] shape, int root, int[] tones, double time)
    {
        switch (style)
        {
            case 0:
                Strums(shape, time, beat / 2);
                break;
            case 1:
                Strums(shape, time, random.Next(2) == 0 ? beat : 2 * beat);
                break;
            case 2:
                ThumbAndStrum(shape, time);
                break;
            case 3 or 4:
                Picked(shape, time);
                break;
            default:
                SingleLine(root, tones, time);
                break;
        }
    }

    private int?[] Shape(int root, int[] tones)
    {
        var shape = open.Select(o => Enumerable.Range(o, 5).Where(p => tones.Contains((p - root + 120) % 12)).Select(p => (int?)p).FirstOrDefault()).ToArray();
        var bass = Array.FindIndex(shape, p => p % 12 == root);
        for (var s = 0; s < bass; s++)
            shape[s] = null;
        return shape;
    }

    private void Strums(int?[] shape, double from, double step)
    {
        for (var (i, time) = (0, from); time < from + 4 * beat - 0.01; time += step, i++)
        {
            if (i > 0 && random.NextDouble() < 0.25)
                continue;
            Strum(shape, time, i % 2 == 1, 60 + random.Next(45));
        }
    }

    private void Strum(int?[] shape, double time, bool up, int velocity)
    {
        var strings = Enumerable.Range(0, 6).Where(s => shape[s] is not null).ToList();
        if (up)
            strings = [.. strings.AsEnumerable().Reverse().Take(4)];
        var spread = 0.008 + 0.03 * random.NextDouble();
        for (var i = 0; i < strings.Count; i++)
            Sound(strings[i], shape[strings[i]]!.Value, time + spread * i / 5, 4 * beat, velocity + random.Next(-8, 9));
    }

    private void ThumbAndStrum(int?[] shape, double from)
    {
        var strings = Enumerable.Range(0, 6).Where(s => shape[s] is not null).ToArray();
        for (var i = 0; i < 4; i++)
        {
            if (i % 2 == 0)
                Sound(strings[i == 0 ? 0 : Math.Min(1, strings.Length - 1)], shape[strings[i == 0 ? 0 : Math.Min(1, strings.Length - 1)]]!.Value, from + i * beat, 3 * beat, 75 + random.Next(30));
            else
                Strum([.. shape.Select((p, s) => s < 2 ? null : p)], from + i * beat, random.Next(2) == 0, 60 + random.Next(35));
        }
    }

    private void Picked(int?[] shape, double from)
    {
        var strings = Enumerable.Range(0, 6).Where(s => shape[s] is not null).ToArray();
        for (var i = 0; i < 8; i++)
        {
            var s = i % 2 == 0 ? strings[random.Next(Math.Min(3, strings.Length))] : strings[random.Next(strings.Length)];
            Sound(s, shape[s]!.Value, from + i * beat / 2 + 0.01 * random.NextDouble(), 3 * beat, 60 + random.Next(45));
            if (i % 4 == 0 && strings[^1] != s)
                Sound(strings[^1], shape[strings[^1]]!.Value, from + i * beat / 2 + 0.01 * random.NextDouble(), 3 * beat, 60 + random.Next(45));
        }
    }

    private void SingleLine(int root, int[] tones, double from)
    {
        var bass = Array.FindIndex(open, o => (root - o % 12 + 12) % 12 <= 4);
        if (bass is >= 0 and < 3)
            Sound(bass, open[bass] + (root - open[bass] % 12 + 12) % 12, from, 4 * beat, 75);
        var midi = 64 + random.Next(-3, 10);
        for (var i = 0; i < 8; i++)
        {
            midi = Math.Clamp(midi + random.Next(-4, 5), open[3], open[5] + 14);
            while (!(tones.Contains((midi - root + 120) % 12) || random.NextDouble() < 0.3))
                midi++;
            if (random.NextDouble() < 0.8)
                Sound(Array.FindLastIndex(open, o => o <= midi), midi, from + i * beat / 2, beat * (0.4 + random.NextDouble()), 65 + random.Next(45));
        }
    }

    private void Sound(int s, int midi, double onset, double duration, int velocity)
    {
        if (onset > length - 0.3)
            return;
        if (ringing[s] is { } before && before.End > onset)
        {
            notes.Remove(before);
            if (onset - before.Onset > 0.03)
                notes.Add(before with { End = onset - 0.004 });
        }
        var note = new GuitarNote(s, midi, onset, Math.Min(onset + duration, length - 0.1), Math.Clamp(velocity, 25, 120));
        notes.Add(note);
        ringing[s] = note;
    }
}
