using System.Globalization;
using Harkbook.Demo;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Instruments.Voicings;
using Harkbook.Music.Theory;

namespace Harkbook.Training.Hands;

/// <summary>
/// Throws a song together at random: a form of sections of four to sixteen bars, strums in eighths, sixteenths, swung or all down, picking patterns over
/// shapes, and lines in one position with hammered, pulled and slid notes. The same seed throws the same song.
/// </summary>
internal sealed class ThrownSong
{
    private static readonly string[] Tunings =
    [
        "E2 A2 D3 G3 B3 E4", "E2 A2 D3 G3 B3 E4", "E2 A2 D3 G3 B3 E4", "D2 A2 D3 G3 B3 E4", "D2 A2 D3 F#3 A3 D4", "D2 A2 D3 G3 A3 D4", "D2 G2 D3 G3 B3 D4",
    ];

    private static readonly string[] Forms =
    [
        "Intro:4 Verse:8 Chorus:8 Verse Chorus Outro:4", "Intro:4 Verse:8 Verse Bridge:4 Verse Outro:2", "Verse:8 Chorus:4 Verse Chorus Solo:8 Chorus",
        "Intro:4 Verse:12 Chorus:8 Verse Outro:4", "Intro:2 Verse:4 Verse Chorus:8 Verse Chorus Outro:2", "Intro:8 Verse:8 Solo:8 Verse Outro:4",
    ];

    private readonly Random chance;
    private readonly Tuning tuning;
    private readonly Capo capo;
    private readonly Key key;
    private readonly string meter;
    private readonly int beats;
    private readonly int perBeat;
    private readonly bool sings;
    private readonly Dictionary<string, Shape> shapes = [];
    private readonly SongLines file = new();

    private ThrownSong(int seed)
    {
        chance = new(seed * 104_729 + 5);
        tuning = Tuning.Parse(Any(Tunings));
        capo = Capo.At(chance.Next(3) == 0 ? chance.Next(1, 6) : 0);
        key = Key.Parse($"{Any("C D E G A F Bb".Split(' '))} {Any("major major minor".Split(' '))}");
        (meter, beats, perBeat) = chance.Next(6) switch { 0 => ("3/4", 3, 2), 1 => ("6/8", 2, 3), _ => ("4/4", 4, 2) };
        sings = chance.Next(2) == 0;
    }

    public static (string Text, DemoPerformance Performance) Throw(int seed) => new ThrownSong(seed).Song(seed);

    private (string, DemoPerformance) Song(int seed)
    {
        while (shapes.Count < 5)
            AddShape(key.Triad(Any([1, 1, 4, 5, 6, 2, 3])));
        var a4 = (440 * Math.Pow(2, (chance.Next(61) - 30) / 1200.0)).ToString("0.###", CultureInfo.InvariantCulture);
        file.Add($"title Thrown {seed}", "recording take.wav", $"pitch A4 = {a4} Hz", $"tuning {tuning}", $"capo {(capo.Fret == 0 ? "none" : capo.Fret)}", $"meter {meter}",
            $"tempo {(perBeat == 3 ? chance.Next(50, 76) : chance.Next(72, 138))}", $"key {key}");
        if (sings)
            file.Add("tune voice");
        foreach (var (name, shape) in shapes)
            file.Add($"shape {name} {shape}");
        var counts = new Dictionary<string, int>();
        foreach (var part in Any(Forms).Split(' '))
        {
            var (name, bars) = (part.Split(':')[0], part.Split(':'));
            counts[name] = counts.GetValueOrDefault(name) + 1;
            Section(name, counts[name], bars.Length > 1 ? int.Parse(bars[1], CultureInfo.InvariantCulture) : 0);
        }
        return (file.ToString(), new()
        {
            Seed = seed,
            Strings = chance.Next(3) == 0 ? "nylon" : "steel",
            RoomSeconds = 0.2 + chance.NextDouble(),
            Rubato = 0.03 * chance.NextDouble(),
            JitterMilliseconds = 4 + 8 * chance.NextDouble(),
        });
    }

    private void AddShape(Chord chord)
    {
        var found = VoicingSearch.Find(chord, tuning, capo, new() { Hand = Hand.On(tuning), Results = 4, MaxFret = 7 })
            .Where(v => v.Shape.SoundingStrings >= 4).ToList();
        if (found.Count > 0)
            shapes.TryAdd(chord.ToString(), found[chance.Next(Math.Min(2, found.Count))].Shape.WithoutFingers());
    }

    private void Section(string name, int number, int bars)
    {
        var own = $"{name} {number}";
        file.Add($"section {own}{(number > 1 ? $" like {name} 1" : "")}");
        if (number > 1)
            return;
        var names = Enumerable.Range(0, bars).Select(i => i == 0 ? shapes.Keys.First() : Any([.. shapes.Keys])).ToArray();
        file.Add($"chords {SongLines.Bars(names)}");
        if (name == "Solo" || (name == "Bridge" && chance.Next(2) == 0))
            Solo(names);
        else if (name is "Intro" or "Outro" ? chance.Next(3) > 0 : chance.Next(3) == 0)
            Picking(names);
        else
            Strums(bars);
        if (sings && name is "Verse" or "Chorus")
            Sung(bars);
    }

    private void Strums(int bars)
    {
        var pattern = Strum();
        if (bars > 4 && chance.Next(2) == 0)
            file.Add($"strum from {bars} | {Strum()} |");
        file.Add($"strum throughout | {pattern} |");
    }

    /// <summary>The hand swings on; a stroke where it meets the strings.</summary>
    private string Strum()
    {
        var way = chance.Next(6);
        var cells = new List<string>();
        for (var beat = 0; beat < beats; beat++)
        {
            string[] cell = perBeat == 3
                ? ["d", Any([".", "d", "."]), Any(["u", "u", "."])]
                : way switch
                {
                    0 => ["d", "d"],
                    1 => ["d", Any([".", "u"]), Any(["d", "."]), Any(["u", "u", "."])],
                    2 => ["d", ".", Any(["u", "u", "."])],
                    _ => [Any(["d", "d", "d", ".", "x"]), Any(["u", "u", ".", "."])],
                };
            if (beat == 0)
                cell[0] = "d";
            cells.Add(string.Join(',', cell));
        }
        return string.Join(' ', cells);
    }

    /// <summary>A thumb that goes back and forth and fingers in a pattern, the same over every shape; a finger hammers now and then.</summary>
    private void Picking(string[] names)
    {
        var cells = beats * perBeat;
        var rows = SongLines.Rows(tuning, names.Length, cells);
        var fingers = Enumerable.Range(0, cells).Select(c => c % perBeat == 0 && chance.Next(4) > 0 ? -1 : chance.Next(5) == 0 ? -2 : chance.Next(3)).ToArray();
        for (var bar = 0; bar < names.Length; bar++)
        {
            var shape = shapes[names[bar]];
            var sounding = Enumerable.Range(0, tuning.Count).Where(s => shape.Frets[s] is not null).ToArray();
            for (var cell = 0; cell < cells; cell++)
            {
                if (cell % perBeat == 0)
                    rows[sounding[cell / perBeat % 2]][bar][cell] = $"{shape.Frets[sounding[cell / perBeat % 2]]}";
                if (fingers[cell] < 0)
                    continue;
                var s = sounding[^(1 + Math.Min(fingers[cell], sounding.Length - 3))];
                rows[s][bar][cell] = $"{shape.Frets[s]}";
                if (cell + 1 < cells && fingers[cell + 1] < 0 && chance.Next(5) == 0)
                    rows[s][bar][cell + 1] = $"h{shape.Frets[s] + chance.Next(1, 3)}";
            }
        }
        file.AddPick(tuning, rows);
    }

    /// <summary>A line in one position on the upper four strings, in the key's five or seven notes.</summary>
    private void Solo(string[] names)
    {
        var divided = perBeat == 3 ? 3 : Any([2, 2, 4, 3]);
        var cells = beats * divided;
        var rows = SongLines.Rows(tuning, names.Length, cells);
        var (neck, position) = (new Fretboard(tuning, capo), chance.Next(0, 8));
        var classes = key.Notes.Select(n => n.PitchClass).ToHashSet();
        var places = Enumerable.Range(tuning.Count - 4, 4).SelectMany(s => Enumerable.Range(position, 5).Select(f => (String: s, Fret: f, Midi: neck.MidiAt(s, f))))
            .Where(p => classes.Contains(p.Midi % 12)).OrderBy(p => p.Midi).DistinctBy(p => p.Midi).ToArray();
        var (at, last) = (chance.Next(places.Length), -9);
        for (var bar = 0; bar < names.Length; bar++)
        {
            for (var cell = 0; cell < cells; cell++)
            {
                if (chance.Next(cell % divided == 0 ? 5 : 3) == 0)
                    continue;
                var next = Math.Clamp(at + Any([-2, -1, -1, 1, 1, 2, 3, -3]), 0, places.Length - 1);
                if (next == at)
                    continue;
                var (a, b) = (places[at], places[next]);
                var joined = a.String == b.String && bar * cells + cell - last <= 2 && chance.Next(2) == 0;
                rows[b.String][bar][cell] = (!joined ? "" : b.Fret > 0 && chance.Next(3) == 0 ? "s" : b.Fret > a.Fret ? "h" : "p") + b.Fret;
                (at, last) = (next, bar * cells + cell);
            }
        }
        file.AddPick(tuning, rows);
    }

    private void Sung(int bars)
    {
        var classes = key.Notes.Select(n => n.PitchClass).ToHashSet();
        int[] scale = [.. Enumerable.Range(50 + chance.Next(8), 15).Where(m => classes.Contains(m % 12))];
        var (step, lines, tune, cells) = (scale.Length / 2, new List<string>(), new List<string>(), beats * perBeat);
        for (var bar = 0; bar < bars; bar++)
        {
            var (cell, pitches) = (new string[cells], new string[cells]);
            for (var c = 0; c < cells; c++)
            {
                cell[c] = pitches[c] = c == cells - 1 && bar % 2 == 1 ? "_" : ".";
                if (cell[c] == "_" || chance.NextDouble() > (c % perBeat == 0 ? 0.6 : 0.25))
                    continue;
                cell[c] = Any("la me no so do hey lo ra wi".Split(' '));
                step = Math.Clamp(step + chance.Next(-2, 3), 0, scale.Length - 1);
                pitches[c] = Pitch.FromMidi(scale[step], key.Centre).ToString();
            }
            lines.Add(string.Join(' ', cell));
            tune.Add(string.Join(' ', pitches));
        }
        file.Add($"sung {SongLines.Bars(lines)}", $"tune {SongLines.Bars(tune)}");
    }

    private T Any<T>(T[] of) => of[chance.Next(of.Length)];
}
