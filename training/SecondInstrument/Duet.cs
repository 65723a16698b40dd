using Harkbook.Audio.Signals;
using Harkbook.Audio.Synthesis;
using Harkbook.Music.Instruments;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Training.SecondInstrument;

/// <summary>A made-up recording with all that was played on it.</summary>
/// <param name="Kind">harmonica, voice, whistle, bowed, or none: a guitar alone.</param>
internal sealed record Duet(string Name, string Kind, Signal Sound, List<GuitarNote> Guitar, List<LineNote> Line, PitchName Tonic, bool Minor, PitchName? Harp, int Position)
{
    public static readonly SampleRate Rate = SampleRate.FromHertz(22_050);

    private static readonly (string Kind, int[] Programs, int Lowest, int Highest)[] Others =
        [("voice", [52, 53, 54], 48, 74), ("whistle", [78, 73, 74, 75], 67, 91), ("bowed", [40, 110], 56, 84)];

    /// <param name="index">Which piece: fixes its instruments, and with the seed all else.</param>
    public static Duet Make(int index, int seed, FontPlayer font, double length, Signal? rendered = null)
    {
        var random = new Random(seed * 10_007 + index);
        var beat = 60 / (65 + 75 * random.NextDouble());
        var kind = (index % 8) switch { < 3 => "harmonica", 3 => "voice", 4 => index % 16 == 4 ? "voice" : "whistle", 5 => index % 16 == 5 ? "whistle" : "bowed", _ => "none" };
        var position = random.Next(20) switch { < 8 => 1, < 15 => 2, < 18 => 3, 18 => 12, _ => 4 };
        var key = Harmonica.UsualKeys[random.Next(12)];
        var harp = Harmonica.Richter(key);
        var tonic = harp.KeyInPosition(position);
        var minor = kind == "harmonica" ? position is 3 or 4 : random.NextDouble() < 0.35;
        var guitar = Backing.Make(random, length, beat, tonic.PitchClass, minor, solo: kind == "none");
        List<LineNote> line = [];
        if (kind == "harmonica")
            line = new HarpLine(random, harp).Make(length, beat, position);
        var choice = Others.FirstOrDefault(o => o.Kind == kind);
        if (choice.Kind is not null)
        {
            var shift = kind == "voice" ? random.Next(2) * 9 : 0;
            line = PlainLine.Make(random, length, beat, tonic.PitchClass, minor, choice.Lowest + shift, choice.Highest - 9 + shift);
        }
        var sound = rendered ?? Render(index, kind, choice.Programs, guitar, line, font, random, length);
        return new($"{font.Name}-{index:000}", kind, sound, guitar, line, tonic, minor, kind == "harmonica" ? key : null, position);
    }

    private static Signal Render(int index, string kind, int[]? programs, List<GuitarNote> guitar, List<LineNote> line, FontPlayer font, Random random, double length)
    {
        var backing = Backed(guitar, font, random, length);
        var off = 24 * (random.NextDouble() - 0.5);
        var other = kind switch
        {
            "none" => null,
            "harmonica" => index / 8 % 2 == 0 ? Reeds(line, random, length, off) : font.Line(line, 22, length, off),
            "voice" when random.Next(2) == 0 => Sung(line, random, length),
            _ => font.Line(line, programs![random.Next(programs.Length)], length, off),
        };
        return Mix(backing, other, random);
    }

    private static float[] Backed(List<GuitarNote> notes, FontPlayer font, Random random, double length)
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

    private static Signal Mix(float[] backing, float[]? other, Random random)
    {
        var decibels = -12 + 18 * random.NextDouble();
        var (pan, width) = (random.NextDouble() < 0.5 ? 0 : 1.2 * (random.NextDouble() - 0.5), random.NextDouble() < 0.5 ? 0 : random.NextDouble() - 0.5);
        var tracks = new List<Track> { new(new(Rate, backing), 0, width) };
        if (other is not null)
        {
            var level = 20 * Math.Log10(Level(backing) / (Level(other) + 1e-9));
            tracks.Add(new(new(Rate, other), level + decibels, pan));
        }
        var mix = Mixer.Sum(Rate, tracks);
        if (random.NextDouble() < 0.5)
        {
            var room = new Audio.Synthesis.Room(Rate, Seconds.FromSeconds(0.2 + 1.2 * random.NextDouble())).Answer(mix);
            mix = Mixer.Sum(Rate, [new(mix), new(room, -24 + 14 * random.NextDouble())]);
        }
        return Scaled(pan == 0 && width == 0 ? mix.ToMono() : mix);
    }

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

    private static float[] Reeds(List<LineNote> notes, Random random, double length, double off) =>
        new FreeReed(Rate, random.Next(1, 1000)).Sound(notes.Select(n => new ReedNote(
            Seconds.FromSeconds(n.Onset), Seconds.FromSeconds(n.End), HertzOf(n.Midi, off), n.Velocity / 127.0, Cents.FromCents(n.Scoop))), Seconds.FromSeconds(length)).Channels[0];

    private static float[] Sung(List<LineNote> notes, Random random, double length) =>
        new VoiceLike(Rate, random.Next(1, 1000)).Sound(notes.Select(n => new VoiceTone(
            Seconds.FromSeconds(n.Onset), Seconds.FromSeconds(n.End), HertzOf(n.Midi), n.Velocity / 127.0, Vowel.All[random.Next(Vowel.All.Length)])), Seconds.FromSeconds(length)).Channels[0];

    private static Hertz HertzOf(int midi, double off = 0) => Hertz.FromHertz(440 * Math.Pow(2, (midi - 69 + off / 100) / 12.0));
}
