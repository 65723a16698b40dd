using System.Globalization;
using System.Text;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Instruments.Voicings;
using Harkbook.Music.Theory;

namespace Harkbook.Bench.Planted;

/// <summary>
/// Composes a small song in every part that a song file has: an introduction that is picked, with a harmonica, two verses that are strummed and
/// sung, two choruses, an ending. The same seed gives the same song. It is no good song, but a possible one.
/// </summary>
internal sealed class SongComposer
{
    private static readonly string[] tunings = ["E2 A2 D3 G3 B3 E4", "D2 A2 D3 G3 B3 E4", "D2 A2 D3 F#3 A3 D4", "D2 A2 D3 G3 A3 D4",
        "E2 A2 D3 G3 B3 E4", "D2 G2 D3 G3 B3 D4"];
    private static readonly string[] strums = ["d . d u . u d u", "d . d . d u d u", "d u d u d . d u", "d . . u d u d ."];
    private static readonly string[] strumsOfThree = ["d . d u d u", "d . d . d u", "d u d u d u"];
    private static readonly string[] strumsOfSix = ["d . u d . u", "d . . d u d", "d . u d u d"];
    private static readonly string[] syllables = ["lo", "ver", "tin", "mar", "sen", "dal", "rick", "fo", "hem", "bree", "ka", "nol", "wist", "ple", "dun"];
    private static readonly string[] titles = ["Tallow Hill", "The Ninth Ferry", "Paper Orchard", "Cold Lantern", "Wren's Arithmetic", "Slow Harbour",
        "Moth and Meter", "The Salt Clerk"];

    private readonly Random chance;
    private readonly Tuning tuning;
    private readonly Capo capo;
    private readonly Key key;
    private readonly Meter meter;
    private readonly Dictionary<Chord, Shape> shapes = [];
    private readonly PitchName harpKey;
    private readonly Harmonica harp;
    private readonly StringBuilder text = new();
    private readonly int seed;
    private readonly int cells;

    public SongComposer(int seed)
    {
        this.seed = seed;
        chance = new(seed * 7919 + 17);
        tuning = Tuning.Parse(Any(tunings));
        capo = Capo.At(chance.Next(5) < 3 ? 0 : chance.Next(1, 5));
        meter = Meter.Of(chance.Next(6) switch { 0 => 3, 1 => 6, _ => 4 } is var upper ? upper : 4, upper == 6 ? 8 : 4);
        cells = meter.Upper == 4 ? 8 : 6;
        var home = Floor(tuning.Strings[chance.Next(2)].Midi + capo.Fret + chance.Next(0, 3) * 5);
        var mode = chance.Next(4) == 0 ? "minor" : "major";
        key = Key.Parse($"{PitchName.FromPitchClass(home, mode == "minor" ? -1 : 2)} {mode}");
        var harpHome = mode == "minor" ? key.Tonic.PitchClass + 3 : chance.Next(2) == 0 ? key.Tonic.PitchClass : key.Tonic.PitchClass + 5;
        harpKey = Harmonica.UsualKeys.First(k => k.PitchClass == harpHome % 12);
        harp = Harmonica.Richter(harpKey);
    }

    /// <param name="a4">What A4 is in the recording.</param>
    public string Write(string recording, double a4)
    {
        var (verse, chorus, intro) = (Progression(8), Progression(4), Progression(4));
        Section("Intro", intro, picked: true, blown: true, sung: false);
        Section("Verse 1", verse, picked: false, blown: false, sung: true);
        Section("Chorus 1", chorus, picked: false, blown: true, sung: false);
        Section("Verse 2 like Verse 1", verse, picked: false, blown: false, sung: true, like: true);
        Section("Chorus 2 like Chorus 1", chorus, picked: false, blown: false, sung: false, like: true);
        Section("Ending", Progression(4), picked: true, blown: false, sung: false);
        return Head(recording, a4) + text;
    }

    private string Head(string recording, double a4)
    {
        var head = new StringBuilder();
        head.Append(CultureInfo.InvariantCulture,
            $"title {titles[seed % titles.Length]} {seed}\nrecording {recording}\npitch A4 = {a4:0.###} Hz\ntuning {tuning}\n");
        head.Append(CultureInfo.InvariantCulture, $"capo {(capo.Fret == 0 ? "none" : capo.Fret.ToString(CultureInfo.InvariantCulture))}\nmeter {meter}\n");
        head.Append(CultureInfo.InvariantCulture, $"tempo {(meter.IsCompound ? 52 + chance.Next(20) : 84 + chance.Next(40))}\n");
        head.Append(CultureInfo.InvariantCulture, $"key {key}\ntune voice\nharp {harpKey}\n");
        foreach (var (chord, shape) in shapes)
            head.Append(CultureInfo.InvariantCulture, $"shape {chord} {shape}\n");
        return head.ToString();
    }

    /// <summary>Bars of one chord or two, diatonic but for a few; each has a shape.</summary>
    private Chord[][] Progression(int bars) =>
        [.. Enumerable.Range(0, bars).Select(bar => Enumerable.Range(0, chance.Next(4) == 0 && cells == 8 ? 2 : 1).Select(_ => Shaped(bar == 0)).ToArray())];

    private Chord Shaped(bool isFirst)
    {
        for (var tries = 0; ; tries++)
        {
            var degree = isFirst ? 1 : Any([1, 2, 4, 4, 5, 5, 6, 3]);
            var chord = !isFirst && chance.Next(5) == 0 ? key.Seventh(degree) : key.Triad(degree);
            if (chance.Next(8) == 0 && !isFirst)
                chord = Chord.Of(chord.Root, chord.Quality, chord.Notes[1 + chance.Next(2)]);
            if (shapes.ContainsKey(chord))
                return chord;
            var found = VoicingSearch.Find(chord, tuning, capo, new() { MaxFret = 5, Hand = Hand.On(tuning), MinStrings = 4 });
            if (found.IsEmpty && tries < 40)
                continue;
            shapes[chord] = found[0].Shape;
            return chord;
        }
    }

    private void Section(string name, Chord[][] bars, bool picked, bool blown, bool sung, bool like = false)
    {
        text.Append(CultureInfo.InvariantCulture, $"\nsection {name}\n");
        if (!like)
        {
            text.Append("  chords |").AppendJoin('|', bars.Select(b => $" {string.Join(' ', b.Select(c => c.ToString()))} ")).Append("|\n");
            if (picked)
                Pick(bars);
            else
                text.Append(CultureInfo.InvariantCulture,
                    $"  strum throughout | {Any(meter.Upper == 3 ? strumsOfThree : meter.Upper == 6 ? strumsOfSix : strums)} |\n");
        }
        if (blown)
            Blow(bars);
        if (sung)
            Sing(bars.Length);
    }

    /// <summary>The thumb on the beats' low strings, fingers between, a hammered note now and then.</summary>
    private void Pick(Chord[][] bars)
    {
        var rows = Enumerable.Range(0, tuning.Count).Select(_ => new List<string>()).ToArray();
        foreach (var bar in bars)
        {
            var cell = rows.Select(_ => Enumerable.Repeat(".", cells).ToArray()).ToArray();
            for (var c = 0; c < cells; c++)
            {
                var shape = shapes[bar[c * bar.Length / cells]];
                var sounding = Enumerable.Range(0, tuning.Count).Where(s => shape.Frets[s] is not null).ToArray();
                var onBeat = c % (meter.IsCompound ? 3 : 2) == 0;
                var thumb = Math.Max(1, sounding.Length / 3);
                var s = onBeat ? sounding[c == 0 ? 0 : chance.Next(thumb)] : sounding[chance.Next(thumb, sounding.Length)];
                if (!onBeat && chance.Next(5) == 0)
                    continue;
                cell[s][c] = shape.Frets[s]!.Value.ToString(CultureInfo.InvariantCulture);
                if (!onBeat && c + 1 < cells && c % 2 == 1 && chance.Next(6) == 0 && bar.Length == 1)
                    cell[s][c + 1] = $"h{shape.Frets[s] + 2}";
            }
            for (var s = 0; s < rows.Length; s++)
                rows[s].Add(string.Join(' ', cell[s]));
        }
        text.Append("  pick\n");
        for (var s = rows.Length - 1; s >= 0; s--)
            text.Append(CultureInfo.InvariantCulture, $"    {tuning.Strings[s]} | {string.Join(" | ", rows[s])} |\n");
    }

    private void Blow(Chord[][] bars)
    {
        var notes = harp.AllNotes.Where(n => n.Technique == HarpTechnique.Plain && n.Hole is >= 2 and <= 8).ToArray();
        var last = notes[chance.Next(notes.Length)];
        text.Append("  harp |");
        foreach (var bar in bars)
        {
            for (var c = 0; c < cells; c++)
            {
                var pitches = bar[c * bar.Length / cells].PitchClasses;
                var near = notes.Where(n => Math.Abs(harp.PitchOf(n).Midi - harp.PitchOf(last).Midi) <= 7 && n != last).ToArray();
                var fitting = near.Where(n => pitches.Contains(harp.PitchOf(n).Midi % 12)).ToArray();
                var starts = c == 0 || chance.Next(c % 2 == 0 ? 2 : 4) == 0;
                if (starts)
                    last = fitting.Length > 0 && chance.Next(4) > 0 ? Any(fitting) : Any(near);
                text.Append(starts ? $" {last}" : c == cells - 1 && chance.Next(3) == 0 ? " _" : " .");
            }
            text.Append(" |");
        }
        text.Append('\n');
    }

    private void Sing(int bars)
    {
        var (scale, at) = (key.Notes, chance.Next(7));
        var (sung, tune) = (new StringBuilder("  sung |"), new StringBuilder("  tune |"));
        for (var bar = 0; bar < bars; bar++)
        {
            for (var c = 0; c < cells; c++)
            {
                var starts = bar % 4 != 3 && c > 0 ? chance.Next(c % 2 == 0 ? 2 : 3) == 0 : c == 2;
                var rests = c == 0 || (bar % 4 == 3 && c == cells - 1) ? " _" : " .";
                sung.Append(starts ? $" {Any(syllables)}" : rests);
                at = starts ? Math.Clamp(at + chance.Next(-2, 3), 0, 9) : at;
                tune.Append(starts ? $" {At(scale[at % 7].PitchClass, 55 + key.Tonic.PitchClass % 5 + at / 7 * 7)}" : rests);
            }
            sung.Append(" |");
            tune.Append(" |");
        }
        text.Append(sung).Append('\n').Append(tune).Append('\n');
    }

    /// <summary>The note of a pitch class nearest above a MIDI number, spelled in the key.</summary>
    private string At(int pitchClass, int above) =>
        Pitch.FromMidi(above + Floor(pitchClass - above), key.Centre).ToString();

    private static int Floor(int number) => (number % 12 + 12) % 12;

    private T Any<T>(IReadOnlyList<T> of) => of[chance.Next(of.Count)];
}
