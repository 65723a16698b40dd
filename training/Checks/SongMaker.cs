using System.Globalization;
using Harkbook.Demo;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Instruments.Voicings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Training.Checks;

/// <summary>A made-up song and how it is played.</summary>
internal sealed record MadeSong(string Text, DemoPerformance Performance);

/// <summary>
/// Makes up songs as a songbook holds them: some chords of a key in shapes that a hand holds, a picked section, a strummed one with words, a tune
/// on single strings, a harmonica now and then. The same seed makes the same song.
/// </summary>
internal sealed class SongMaker
{
    private static readonly string[] Tunings =
    [
        "E2 A2 D3 G3 B3 E4", "E2 A2 D3 G3 B3 E4", "D2 A2 D3 G3 B3 E4", "D2 A2 D3 F#3 A3 D4", "D2 A2 D3 G3 A3 D4", "D2 G2 D3 G3 B3 D4", "C2 G2 D3 G3 A3 D4",
    ];

    private static readonly string[] Strokes4 =
        ["d . d u . u d u", "d . d . d u d u", "d . . u d . d u", "d . d u d u d .", "d . x u . u x u", "d . . . d . x .", "d u d u d u d u"];

    private static readonly string[] Strokes3 = ["d . d u d u", "d . d . d .", "d . . u d u", "d . x . d u"];

    private readonly Random random;
    private readonly Tuning tuning;
    private readonly Capo capo;
    private readonly Key key;
    private readonly int eighths;
    private readonly Dictionary<string, Shape> shapes = [];
    private readonly SongLines file = new();
    private readonly bool hasHarp, hasVoice;
    private readonly string harpKey = "";

    private SongMaker(int seed)
    {
        random = new(seed);
        tuning = Tuning.Parse(Pick(Tunings));
        capo = Capo.At(random.Next(3) == 0 ? random.Next(1, 6) : 0);
        key = Key.Parse($"{Pick("C D Eb E F G A Bb".Split(' '))} {Pick("major major major minor mixolydian dorian".Split(' '))}");
        eighths = random.Next(4) == 0 ? 6 : 8;
        (hasHarp, hasVoice) = (random.Next(2) == 0, random.Next(3) > 0);
        if (hasHarp)
            harpKey = PitchName.FromPitchClass((key.Tonic.PitchClass + (random.Next(2) == 0 ? 0 : 5)) % 12).ToString();
    }

    public static MadeSong Make(int seed) => new SongMaker(seed).Song(seed);

    private MadeSong Song(int seed)
    {
        var tempo = random.Next(76, 128);
        ChooseShapes();
        file.Add($"title Made Song {seed}", $"recording take.wav", $"tuning {tuning}", $"capo {(capo.Fret == 0 ? "none" : capo.Fret)}",
            $"meter {(eighths == 8 ? "4/4" : "3/4")}", $"tempo {tempo}", $"key {key}");
        if (hasVoice)
            file.Add("tune voice");
        if (hasHarp)
            file.Add($"harp {harpKey}");
        foreach (var (name, shape) in shapes)
            file.Add($"shape {name} {shape}");
        Picked("Intro", 6);
        Strummed("Verse", 8);
        Tune("Break", 5);
        Strummed("Chorus", 6);
        return new(file.ToString(), new()
        {
            Seed = seed,
            Strings = random.Next(3) == 0 ? "nylon" : "steel",
            RoomSeconds = 0.2 + 1.2 * random.NextDouble(),
            Rubato = 0.035 * random.NextDouble(),
            JitterMilliseconds = 4 + 13 * random.NextDouble(),
        });
    }

    private void ChooseShapes()
    {
        while (shapes.Count < 5)
        {
            var degree = random.Next(1, 8);
            var chord = random.Next(4) == 0 ? key.Seventh(degree) : key.Triad(degree);
            var found = VoicingSearch.Find(chord, tuning, capo, new() { Hand = Hand.On(tuning), Results = 5, MaxFret = 9 })
                .Where(v => v.Shape.SoundingStrings >= 4).ToList();
            if (found.Count > 0)
                shapes.TryAdd(chord.ToString(), found[random.Next(Math.Min(3, found.Count))].Shape.WithoutFingers());
        }
    }

    private List<string> Chords(string section, int bars)
    {
        var names = Enumerable.Range(0, bars).Select(_ => shapes.Keys.ElementAt(random.Next(shapes.Count))).ToList();
        file.Add($"section {section}", $"chords {SongLines.Bars(names)}");
        return names;
    }

    private void Strummed(string section, int bars)
    {
        Chords(section, bars);
        var (a, b) = (Pick(eighths == 8 ? Strokes4 : Strokes3), Pick(eighths == 8 ? Strokes4 : Strokes3));
        file.Add($"strum {SongLines.Bars(Enumerable.Range(0, bars).Select(i => i % 4 == 3 ? b : a))}");
        if (hasVoice)
            Sung(section, bars);
        if (hasHarp)
            Blown(bars, 0.35);
    }

    /// <summary>The chords' shapes, a bass note on each strong beat and other strings on the eighths between.</summary>
    private void Picked(string section, int bars)
    {
        var names = Chords(section, bars);
        var rows = SongLines.Rows(tuning, bars, eighths);
        for (var bar = 0; bar < bars; bar++)
        {
            var shape = shapes[names[bar]];
            var sounding = Enumerable.Range(0, tuning.Count).Where(s => shape.Frets[s] is not null).ToArray();
            for (var cell = 0; cell < eighths; cell++)
            {
                var bass = cell % 4 == 0 || (eighths == 6 && cell == 0);
                if (bass)
                    rows[sounding[cell == 0 ? 0 : random.Next(2)]][bar][cell] = "f";
                if (!bass || random.Next(4) == 0)
                    rows[sounding[random.Next(2, sounding.Length)]][bar][cell] = "f";
            }
            for (var s = 0; s < tuning.Count; s++)
                rows[s][bar] = [.. rows[s][bar].Select(c => c == "f" ? $"{shape.Frets[s]}" : c)];
        }
        file.AddPick(tuning, rows);
        if (hasHarp)
            Blown(bars, 0.5);
    }

    /// <summary>A tune in the key on the upper strings; now and then a finger hammers, pulls or slides, or a bass string sounds with it.</summary>
    private void Tune(string section, int bars)
    {
        var names = Chords(section, bars);
        var rows = SongLines.Rows(tuning, bars, eighths);
        var neck = new Fretboard(tuning, capo);
        var classes = key.Notes.Select(n => n.PitchClass).ToHashSet();
        var places = Enumerable.Range(2, tuning.Count - 2).SelectMany(s => Enumerable.Range(0, 8).Select(f => (String: s, Fret: f, Midi: neck.MidiAt(s, f))))
            .Where(p => classes.Contains(p.Midi % 12)).ToArray();
        var (at, last) = (places[random.Next(places.Length)], -9);
        for (var bar = 0; bar < bars; bar++)
        {
            if (shapes[names[bar]].Frets.Index().First(f => f.Item is not null) is var bass && random.Next(2) == 0)
                rows[bass.Index][bar][0] = $"{bass.Item}";
            for (var cell = 0; cell < eighths; cell++)
            {
                if (random.Next(4) == 0)
                    continue;
                var next = places.Where(p => Math.Abs(p.Midi - at.Midi) is > 0 and <= 5 && Math.Abs(p.Fret - at.Fret) <= 4)
                    .OrderBy(_ => random.Next()).FirstOrDefault(at);
                var joined = next.String == at.String && bar * eighths + cell - last == 1 && random.Next(2) == 0;
                rows[next.String][bar][cell] = (joined ? next.Fret == 0 || (next.Fret < at.Fret && random.Next(3) > 0) ? "p" : next.Fret > at.Fret
                    && random.Next(3) > 0 ? "h" : "s" : "") + next.Fret;
                (at, last) = (next, bar * eighths + cell);
            }
        }
        file.AddPick(tuning, rows);
    }

    private void Sung(string section, int bars)
    {
        var classes = key.Notes.Select(n => n.PitchClass).ToHashSet();
        int[] scale = [.. Enumerable.Range(50 + random.Next(8), 15).Where(m => classes.Contains(m % 12))];
        var (step, lines, tune) = (scale.Length / 2, new List<string>(), new List<string>());
        for (var bar = 0; bar < bars; bar++)
        {
            var cells = new string[eighths];
            var notes = new string[eighths];
            for (var cell = 0; cell < eighths; cell++)
            {
                cells[cell] = notes[cell] = cell == eighths - 1 && bar % 2 == 1 ? "_" : ".";
                if (cells[cell] == "_" || random.NextDouble() > (cell % 2 == 0 ? 0.6 : 0.3))
                    continue;
                cells[cell] = Pick("la me no so do hey lo ra wi tide home".Split(' '));
                step = Math.Clamp(step + random.Next(-2, 3), 0, scale.Length - 1);
                notes[cell] = Pitch.FromMidi(scale[step], key.Centre).ToString();
            }
            lines.Add(string.Join(' ', cells));
            tune.Add(string.Join(' ', notes));
        }
        file.Add($"sung {SongLines.Bars(lines)}", $"tune {SongLines.Bars(tune)}");
    }

    private void Blown(int bars, double often)
    {
        var harp = Harmonica.Richter(PitchName.Parse(harpKey));
        var classes = key.Notes.Select(n => n.PitchClass).ToHashSet();
        var notes = harp.AllNotes.Where(n => n.Hole is >= 1 and <= 8 && n.Technique is HarpTechnique.Plain or HarpTechnique.Bent && n.Bend >= -1
            && classes.Contains(harp.PitchOf(n).Midi % 12)).OrderBy(n => harp.PitchOf(n).Midi).ToArray();
        var (step, lines) = (notes.Length / 2, new List<string>());
        for (var bar = 0; bar < bars; bar++)
        {
            var cells = new string[eighths];
            for (var cell = 0; cell < eighths; cell++)
            {
                cells[cell] = cell == eighths - 1 ? "_" : ".";
                if (cells[cell] == "_" || random.NextDouble() > often)
                    continue;
                step = Math.Clamp(step + random.Next(-3, 4), 0, notes.Length - 1);
                cells[cell] = notes[step].ToString();
            }
            lines.Add(string.Join(' ', cells));
        }
        file.Add($"harp {SongLines.Bars(lines)}");
    }

    private T Pick<T>(T[] of) => of[random.Next(of.Length)];
}
