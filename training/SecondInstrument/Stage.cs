using Harkbook.Audio.Signals;
using Harkbook.Audio.Synthesis.Mixing;
using Harkbook.Audio.Synthesis.Reeds;
using Harkbook.Audio.Synthesis.Strings;
using Harkbook.Audio.Synthesis.Voices;
using Harkbook.Units;

namespace Harkbook.Training.SecondInstrument;

/// <summary>Sounds a guitar and the lines over it, by a font or by our own instruments, and mixes them.</summary>
internal static class Stage
{
    public static readonly SampleRate Rate = SampleRate.FromHertz(22_050);

    public static float[] Backed(List<GuitarNote> notes, FontPlayer font, Random random, double length)
    {
        var off = Enumerable.Range(0, 6).Select(_ => 14 * (random.NextDouble() - 0.5)).ToArray();
        var samples = random.Next(5) switch
        {
            0 => Strings(notes, random, length, off),
            1 or 2 => Stiff(notes, random, length),
            _ => font.Guitar(notes, 24 + random.Next(5), length, off),
        };
        if (random.Next(2) == 0)
            NoteWeights.Room.Furnish(samples, random);
        return samples;
    }

    public static Signal Mix(float[] backing, IReadOnlyList<float[]> others, Random random)
    {
        var decibels = Decibels(random);
        var (pan, width) = (Pan(random), random.NextDouble() < 0.5 ? 0 : random.NextDouble() - 0.5);
        var tracks = new List<Track> { new(new Signal(Rate, backing), 0, width) };
        var stereo = width != 0 || pan != 0;
        for (var i = 0; i < others.Count; i++)
        {
            if (i > 0)
                (decibels, pan) = (Decibels(random), Pan(random));
            stereo |= pan != 0;
            tracks.Add(new(new Signal(Rate, others[i]), 20 * Math.Log10(Level(backing) / (Level(others[i]) + 1e-9)) + decibels, pan));
        }
        var mix = Mixer.Sum(Rate, tracks);
        if (random.NextDouble() < 0.5)
        {
            var room = new Room(Rate, Seconds.FromSeconds(0.2 + 1.2 * random.NextDouble())).Answer(mix);
            mix = Mixer.Sum(Rate, [new(mix), new(room, -24 + 14 * random.NextDouble())]);
        }
        return Scaled(stereo ? mix : mix.ToMono());
    }

    private static double Decibels(Random random) => -12 + 18 * random.NextDouble();

    private static double Pan(Random random) => random.NextDouble() < 0.5 ? 0 : 1.2 * (random.NextDouble() - 0.5);

    private static Signal Scaled(Signal mix)
    {
        var gain = 0.7f / (mix.Channels.Max(c => c.Max(Math.Abs)) + 1e-6f);
        return new(mix.Rate, [.. mix.Channels.Select(c => c.Select(x => x * gain).ToArray())]);
    }

    /// <summary>The level while it sounds: of the louder half of blocks of 50 ms.</summary>
    private static double Level(float[] samples)
    {
        var blocks = samples.Chunk(1100).Select(b => b.Average(x => (double)x * x)).OrderDescending().ToArray();
        return Math.Sqrt(blocks.Take(blocks.Length / 2).Average());
    }

    private static float[] Strings(List<GuitarNote> notes, Random random, double length, double[] off)
    {
        var set = (random.Next(2) == 0 ? StringSet.Steel : StringSet.Nylon) with { Sustain = Seconds.FromSeconds(2 + 9 * random.NextDouble()), PluckPlace = 0.08 + 0.25 * random.NextDouble() };
        var strings = Enumerable.Range(0, 6).Select(s => (IReadOnlyList<Pluck>)[.. notes.Where(n => n.String == s)
            .Select(n => new Pluck(Seconds.FromSeconds(n.Onset), Seconds.FromSeconds(n.End), HertzOf(n.Midi, off[s]), n.Velocity / 127.0))]).ToArray();
        return new StringInstrument(Rate, set, random.Next(1, 1000)).Sound(strings, Seconds.FromSeconds(length)).Channels[0];
    }

    private static float[] Stiff(List<GuitarNote> notes, Random random, double length)
    {
        var samples = new float[(int)(length * Rate.Hertz)];
        var sound = new NoteWeights.StringSound(random);
        foreach (var note in notes)
            sound.Add(samples, new(note.Midi, note.Onset, note.End, note.String, note.Velocity));
        return samples;
    }

    public static float[] Reeds(List<LineNote> notes, Random random, double length, double off) =>
        new FreeReed(Rate, random.Next(1, 1000)).Sound(notes.Select(n => new ReedNote(
            Seconds.FromSeconds(n.Onset), Seconds.FromSeconds(n.End), HertzOf(n.Midi, off), n.Velocity / 127.0, Cents.FromCents(n.Scoop))), Seconds.FromSeconds(length)).Channels[0];

    public static float[] Sung(List<LineNote> notes, Random random, double length) =>
        new VoiceLike(Rate, random.Next(1, 1000)).Sound(notes.Select(n => new VoiceTone(
            Seconds.FromSeconds(n.Onset), Seconds.FromSeconds(n.End), HertzOf(n.Midi), n.Velocity / 127.0, Vowel.All[random.Next(Vowel.All.Length)])), Seconds.FromSeconds(length)).Channels[0];

    private static Hertz HertzOf(int midi, double off = 0) => Hertz.FromHertz(440 * Math.Pow(2, (midi - 69 + off / 100) / 12.0));
}
