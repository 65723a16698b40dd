using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Training.Fretting;

/// <summary>
/// A second maker of pieces, who shares nothing with the programs that are measured: shapes by rules of thumb (<see cref="ThumbShapes"/>), songs of
/// two or three parts with one pattern each: strums, an alternating thumb, arpeggios, a bass and a strum, drones under a riff.
/// </summary>
internal sealed class Busker
{
    private static readonly string[][] Major =
    [
        ["1", "4", "5", "1"], ["1", "5", "6m", "4"], ["1", "1", "4", "5"], ["1", "6m", "4", "5"], ["1", "b7", "4", "1"], ["4", "1", "5", "6m"], ["1", "2m", "4", "1"],
        ["1", "4", "1", "57"], ["1", "3m", "4", "5"], ["6m", "4", "1", "5"], ["1add9", "5", "4", "1"], ["1sus4", "1", "4", "5sus4"], ["1", "1maj7", "4", "5"], ["17", "47", "17", "57"],
    ];

    private static readonly string[][] Minor =
    [
        ["1m", "b7", "b6", "b7"], ["1m", "4m", "1m", "5"], ["1m", "b3", "b7", "1m"], ["1m", "b6", "b3", "b7"], ["1m", "4m", "5m", "1m"], ["1m7", "4", "1m7", "b7"],
    ];

    private readonly Random random;
    private readonly Fretboard board;
    private readonly int[] open;
    private readonly double beat;
    private readonly ThumbShapes hand;
    private readonly Key key;
    private readonly List<PlayedChord> chords = [];
    private readonly List<PlayedNote> done = [];
    private readonly PlayedNote?[] sounding = new PlayedNote?[6];
    private readonly Dictionary<string, (Chord, Shape?)> known = [];

    private Busker(Random random, Tuning tuning, Capo capo)
    {
        this.random = random;
        board = new(tuning, capo);
        open = [.. Enumerable.Range(0, 6).Select(s => board.MidiAt(s, 0))];
        beat = 60 / (66 + 70 * random.NextDouble());
        hand = new(open, 0.25 + 0.75 * random.NextDouble(), 0.3 + 0.4 * random.NextDouble(), random.Next(3) == 0, random.Next(4) == 0, random);
        key = EasyKey();
    }

    public static MadePiece Play(NamedTuning named, int capo, double length, int seed)
    {
        var busker = new Busker(new Random(seed), named.Tuning, Capo.At(capo));
        var style = busker.Play(length);
        return new(named.Tuning, Capo.At(capo), named.Name, style, busker.key, busker.Notes(length), busker.chords, length);
    }

    private List<PlayedNote> Notes(double length)
    {
        for (var s = 0; s < 6; s++)
            Stop(s, length);
        return [.. done.Select(n => n with { End = Math.Min(n.End, length - 0.05) }).Where(n => n.End - n.Onset > 0.04).OrderBy(n => n.Onset)];
    }

    /// <summary>One of the keys whose first and fourth or fifth chord lie best under the hand.</summary>
    private Key EasyKey()
    {
        var keys = Enumerable.Range(0, 24).Select(i => (Root: i % 12, Minor: i >= 12)).OrderByDescending(k =>
            hand.Ease(Of(k.Root, k.Minor ? "m" : "")) + 0.4 * Math.Max(-3, hand.Ease(Of((k.Root + 5) % 12, k.Minor ? "m" : ""))) + 0.4 * Math.Max(-3, hand.Ease(Of((k.Root + 7) % 12, "")))
            - (k.Minor ? 0.4 : 0) + 0.5 * random.NextDouble()).ToArray();
        var (root, minor) = keys[Math.Min(random.Next(5), random.Next(5))];
        return new(PitchName.FromPitchClass(root), minor ? Mode.Minor : Mode.Major);
    }

    private static Chord Of(int root, string kind) => ChordSymbol.TryRead($"{PitchName.FromPitchClass(root)}{kind}", out var chord) ? chord! : throw new InvalidOperationException(kind);

    private string Play(double length)
    {
        string[] styles = ["strums", "thumb", "arpeggio", "bass and strum", "riff", "slow strums"];
        var parts = Enumerable.Range(0, random.Next(1, 4)).Select(_ => (Style: styles[random.Next(styles.Length)], Words: Words(), Pattern: random.Next())).ToArray();
        var time = 0.3;
        for (var part = 0; time < length - 4 * beat; part = (part + 1) % parts.Length)
        {
            var rounds = random.Next(2, 4);
            for (var i = 0; i < rounds * parts[part].Words.Length && time < length - 4 * beat; i++)
            {
                var (chord, shape) = Known(parts[part].Words[i % parts[part].Words.Length]);
                if (shape is null)
                    continue;
                chords.Add(new(time, time + 4 * beat, chord, shape, parts[part].Style == "riff"));
                Change(shape, time);
                Bar(parts[part].Style, parts[part].Pattern, shape, time);
                time += 4 * beat;
            }
            if (known.Values.All(k => k.Item2 is null))
                parts = [.. parts.Select(p => p with { Words = Words() })];
        }
        return string.Join(", ", parts.Select(p => p.Style).Distinct());
    }

    private string[] Words() => key.Mode.IsMinor ? Minor[random.Next(Minor.Length)] : Major[random.Next(Major.Length)];

    private (Chord, Shape?) Known(string word)
    {
        if (known.TryGetValue(word, out var found))
            return found;
        int[] steps = [0, 2, 4, 5, 7, 9, 11];
        var flat = word[0] == 'b' ? 1 : 0;
        var chord = Of((key.Tonic.PitchClass + steps[word[flat] - '1'] - flat + 12) % 12, word[(flat + 1)..]);
        return known[word] = (chord, hand.Of(chord, word[(flat + 1)..]));
    }

    private void Bar(string style, int pattern, Shape shape, double from)
    {
        var strings = Enumerable.Range(0, 6).Where(s => shape.Frets[s] is not null).ToArray();
        var fixedly = new Random(pattern);
        switch (style)
        {
            case "strums":
                for (var i = 0; i < 8; i++)
                {
                    var plays = i == 0 || fixedly.NextDouble() < 0.7;
                    if (plays)
                        Strum(shape, i % 2 == 0 ? strings : strings.TakeLast(3 + fixedly.Next(2)), from + i * beat / 2, i % 2 == 1);
                }
                break;
            case "slow strums":
                Strum(shape, strings, from, false);
                if (fixedly.Next(2) == 0)
                    Strum(shape, strings, from + 2 * beat, false);
                break;
            case "thumb":
                Thumb(shape, strings, from, fixedly);
                break;
            case "arpeggio":
                var order = fixedly.Next(3) switch { 0 => strings, 1 => [.. strings, .. strings[1..^1].Reverse()], _ => [strings[0], .. strings.TakeLast(3), .. strings.TakeLast(3).Reverse()] };
                for (var i = 0; i < 8; i++)
                    Sound(order[i % order.Length], shape, from + i * beat / 2);
                break;
            case "bass and strum":
                for (var i = 0; i < 4; i++)
                {
                    if (i % 2 == 0)
                        Sound(strings[i / 2 % 2], shape, from + i * beat);
                    else
                        Strum(shape, strings.Skip(2), from + i * beat, fixedly.Next(3) == 0);
                }
                break;
            default:
                Riff(shape, strings, from, fixedly);
                break;
        }
    }

    private void Thumb(Shape shape, int[] strings, double from, Random fixedly)
    {
        var (basses, trebles) = (strings.Take(strings.Length > 4 ? 3 : 2).ToArray(), strings.TakeLast(3).ToArray());
        for (var i = 0; i < 8; i++)
        {
            if (i % 2 == 0)
                Sound(basses[i % 4 == 0 ? 0 : basses.Length == 3 && i == 6 ? 2 : 1], shape, from + i * beat / 2);
            var treble = trebles[fixedly.Next(trebles.Length)];
            if ((i % 2 == 1 || fixedly.Next(4) == 0) && fixedly.NextDouble() < 0.85)
                Sound(treble, shape, from + i * beat / 2);
        }
    }

    /// <summary>Open low strings under a tune on the upper three, near the nut.</summary>
    private void Riff(Shape shape, int[] strings, double from, Random fixedly)
    {
        int[] scale = key.Mode.IsMinor ? [0, 3, 5, 7, 10] : [0, 2, 4, 7, 9];
        var reach = fixedly.Next(3) == 0 ? 7 : 4;
        var places = Enumerable.Range(3, 3).SelectMany(s => Enumerable.Range(0, reach).Select(f => (S: s, F: f)))
            .Where(p => scale.Contains((open[p.S] + p.F - key.Tonic.PitchClass + 120) % 12)).OrderBy(p => open[p.S] + p.F).ToArray();
        if (places.Length == 0)
            return;
        var at = fixedly.Next(places.Length);
        for (var i = 0; i < 8; i++)
        {
            if (i % 2 == 0)
                Sound(strings[0], shape, from + i * beat / 2);
            at = Math.Clamp(at + fixedly.Next(-2, 3), 0, places.Length - 1);
            if (fixedly.NextDouble() < 0.75)
                Pluck(places[at].S, places[at].F, from + i * beat / 2, 0.6);
        }
    }

    private void Strum(Shape shape, IEnumerable<int> strings, double at, bool up)
    {
        var spread = 0.012 + 0.035 * random.NextDouble();
        var order = up ? strings.Reverse().ToArray() : strings.ToArray();
        for (var i = 0; i < order.Length; i++)
            Pluck(order[i], shape.Frets[order[i]]!.Value, at + spread * i / 5, (up ? 0.5 : 0.65) + 0.15 * random.NextDouble());
    }

    private void Sound(int s, Shape shape, double at) => Pluck(s, shape.Frets[s]!.Value, at, 0.5 + 0.3 * random.NextDouble());

    private void Pluck(int s, int fret, double at, double strength)
    {
        at += 0.008 * (random.NextDouble() - 0.5);
        Stop(s, at - 0.005);
        sounding[s] = new(open[s] + fret, at, at + 5, s, fret, strength);
    }

    private void Change(Shape shape, double at)
    {
        for (var s = 0; s < 6; s++)
        {
            if (sounding[s] is { } note && (note.Fret > 0 || shape.Frets[s] > 0) && shape.Frets[s] != note.Fret)
                Stop(s, at - 0.03);
        }
    }

    private void Stop(int s, double at)
    {
        if (sounding[s] is { } note)
            done.Add(note with { End = Math.Min(note.End, Math.Max(at, note.Onset + 0.03)) });
        sounding[s] = null;
    }
}
