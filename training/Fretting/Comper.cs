using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Training.Fretting;

/// <summary>
/// A third maker of pieces, who hardly uses open strings: chords of three or four strings anywhere on the neck, barres, fifths with their octave, lines and
/// walking basses in any key. Such playing says little of the tuning, and that is what a fit must learn from it.
/// </summary>
internal sealed class Comper
{
    /// <summary>Steps of the scale in semitones, with the chord's kind.</summary>
    private static readonly (int Root, string Kind)[][] Songs =
    [
        [(2, "m7"), (7, "7"), (0, "maj7"), (9, "m7")], [(0, "maj7"), (9, "7"), (2, "m7"), (7, "7")], [(0, "7"), (5, "7"), (0, "7"), (7, "7")],
        [(0, "m7"), (5, "7"), (0, "m7"), (5, "7")], [(0, "6"), (5, "6"), (7, "7"), (0, "6")], [(0, ""), (9, "m"), (5, ""), (7, "")],
        [(0, "m"), (8, ""), (3, ""), (10, "")], [(0, ""), (10, ""), (5, ""), (0, "")], [(0, "m7"), (2, "m7b5"), (7, "7"), (0, "m7")],
        [(0, "9"), (0, "9"), (5, "9"), (0, "9")], [(0, "maj7"), (4, "m7"), (5, "maj7"), (7, "7")], [(0, "m"), (5, "m"), (7, "7"), (0, "m")],
    ];

    private static readonly int[][] StringSets = [[2, 3, 4, 5], [1, 2, 3, 4], [2, 3, 4], [3, 4, 5], [1, 2, 3], [0, 2, 3, 4], [0, 2, 3], [1, 3, 4, 5]];

    private readonly Random random;
    private readonly int[] open;
    private readonly double beat, openLiking;
    private readonly int tonic;
    private readonly List<PlayedChord> chords = [];
    private readonly List<PlayedNote> notes = [];

    private Comper(Random random, Tuning tuning, Capo capo)
    {
        this.random = random;
        var board = new Fretboard(tuning, capo);
        open = [.. Enumerable.Range(0, 6).Select(s => board.MidiAt(s, 0))];
        (beat, openLiking, tonic) = (60 / (70 + 110 * random.NextDouble()), random.Next(3) == 0 ? 0.3 * random.NextDouble() : 0, random.Next(12));
    }

    public static MadePiece Play(NamedTuning named, int capo, double length, int seed)
    {
        var comper = new Comper(new Random(seed), named.Tuning, Capo.At(capo));
        var style = comper.Play(length);
        var minor = comper.chords.Count > 0 && comper.chords[^1].Chord.Quality.PitchClasses.Contains(3);
        return new(named.Tuning, Capo.At(capo), named.Name, style, new(PitchName.FromPitchClass(comper.tonic), minor ? Mode.Minor : Mode.Major),
            [.. comper.notes.Where(n => n.End < length).OrderBy(n => n.Onset)], comper.chords, length);
    }

    private string Play(double length)
    {
        string[] styles = ["stabs", "barres", "fifths", "line", "walk", "held"];
        var parts = Enumerable.Range(0, random.Next(1, 3)).Select(_ => (Style: styles[random.Next(styles.Length)], Song: Songs[random.Next(Songs.Length)], Pattern: random.Next())).ToArray();
        var (time, bar) = (0.3, 0);
        for (; time < length - 4.5 * beat; time += 4 * beat, bar++)
        {
            var (style, song, pattern) = parts[bar / 8 % parts.Length];
            var (root, kind) = song[bar % song.Length];
            Bar(style, Of(tonic + root, kind), time, new Random(pattern + (random.Next(4) == 0 ? bar : 0)), new Random(pattern + bar % song.Length));
        }
        return string.Join(", ", parts.Select(p => p.Style).Distinct());
    }

    private static Chord Of(int root, string kind) =>
        ChordSymbol.TryRead($"{PitchName.FromPitchClass(root % 12)}{kind}", out var chord) ? chord! : throw new InvalidOperationException(kind);

    private void Bar(string style, Chord chord, double from, Random rhythm, Random choice)
    {
        switch (style)
        {
            case "line":
                Line(from, 4 * beat, choice, low: 1);
                return;
            case "walk":
                Line(from, 4 * beat, choice, low: 0, strings: 2, step: beat);
                break;
        }
        var frets = style switch { "barres" => Barre(chord, choice), "fifths" => Fifth(chord, choice), _ => Closed(chord, choice) };
        if (frets is null)
            return;
        chords.Add(new(from, from + 4 * beat, chord, Shape.Of([.. frets]), style == "fifths"));
        if (style == "held")
        {
            Strum(frets, from, 3.9 * beat);
            return;
        }
        for (var eighth = 0; eighth < 8; eighth++)
        {
            if (eighth > 0 && rhythm.NextDouble() < 0.5 || style == "walk" && eighth % 4 != 2)
                continue;
            Strum(frets, from + eighth * beat / 2, rhythm.NextDouble() < 0.4 ? 0.18 : 0.9 * beat);
        }
    }

    /// <summary>Every shape on some strings, within four frets, that has the chord's third and seventh; one of them by chance, low places likelier.</summary>
    private int?[]? Closed(Chord chord, Random choice)
    {
        for (var tries = 0; tries < 40; tries++)
        {
            var (set, place) = (StringSets[choice.Next(StringSets.Length)], Math.Min(1 + choice.Next(10), 1 + choice.Next(10)));
            var frets = new int?[6];
            foreach (var s in set)
            {
                var ways = Enumerable.Range(place, 4).Where(f => chord.PitchClasses.Contains((open[s] + f) % 12)).ToList();
                if (choice.NextDouble() < openLiking && chord.PitchClasses.Contains(open[s] % 12))
                    ways = [0];
                if (ways.Count > 0)
                    frets[s] = ways[choice.Next(ways.Count)];
            }
            var classes = set.Where(s => frets[s] is not null).Select(s => (open[s] + frets[s]!.Value) % 12).ToHashSet();
            if (set.All(s => frets[s] is not null) && classes.Count >= 3 && chord.PitchClasses.Skip(1).Take(3).Where((_, i) => i != 1).All(classes.Contains))
                return frets;
        }
        return null;
    }

    /// <summary>A finger across the strings from the root's on, three more fingers above it.</summary>
    private int?[]? Barre(Chord chord, Random choice)
    {
        var rootString = choice.Next(2);
        var place = (chord.Root.PitchClass - open[rootString] % 12 + 12) % 12;
        if (place is 0 or > 10)
            return null;
        var frets = new int?[6];
        for (var (s, free) = (rootString, 3); s < 6; s++)
        {
            var fret = Enumerable.Range(place, free > 0 ? 4 : 1).Cast<int?>().FirstOrDefault(f => chord.PitchClasses.Contains((open[s] + f!.Value) % 12));
            frets[s] = fret;
            free -= fret > place ? 1 : 0;
        }
        return frets.Count(f => f is not null) >= 4 ? frets : null;
    }

    private int?[]? Fifth(Chord chord, Random choice)
    {
        var rootString = choice.Next(2);
        var place = (chord.Root.PitchClass - open[rootString] % 12 + 12) % 12;
        var frets = new int?[6];
        frets[rootString] = place;
        for (var s = rootString + 1; s < rootString + 3; s++)
            frets[s] = Enumerable.Range(Math.Max(0, place - 2), 5).Cast<int?>().FirstOrDefault(f => (open[s] + f!.Value - chord.Root.PitchClass + 120) % 12 is 7 or 0);
        return frets[rootString + 1] is null ? null : frets;
    }

    private void Line(double from, double length, Random choice, int low, int strings = 5, double? step = null)
    {
        int[] scale = choice.Next(2) == 0 ? [0, 2, 4, 5, 7, 9, 11] : [0, 3, 5, 7, 10];
        var place = 1 + choice.Next(9);
        var places = Enumerable.Range(low, Math.Min(strings, 6 - low)).SelectMany(s => Enumerable.Range(place, 4).Select(f => (S: s, F: f)))
            .Where(p => scale.Contains((open[p.S] + p.F - tonic + 120) % 12)).OrderBy(p => open[p.S] + p.F).ToArray();
        if (places.Length == 0)
            return;
        var at = choice.Next(places.Length);
        var each = step ?? beat / (choice.Next(2) + 1);
        for (var time = 0.0; time < length - 0.05; time += each)
        {
            at = Math.Clamp(at + choice.Next(-2, 3), 0, places.Length - 1);
            if (step is not null || choice.NextDouble() < 0.8)
                Sound(places[at].S, places[at].F, from + time, each * (0.7 + 0.3 * random.NextDouble()));
        }
    }

    private void Strum(int?[] frets, double at, double length)
    {
        var spread = 0.025 * random.NextDouble();
        for (var s = 0; s < 6; s++)
        {
            if (frets[s] is { } fret)
                Sound(s, fret, at + spread * s / 5, length * (0.9 + 0.1 * random.NextDouble()));
        }
    }

    /// <summary>A string that still sounds is cut short.</summary>
    private void Sound(int s, int fret, double at, double length)
    {
        at += 0.006 * (random.NextDouble() - 0.5);
        var before = notes.FindLastIndex(n => n.StringIndex == s);
        if (before >= 0 && notes[before].End > at)
            notes[before] = notes[before] with { End = Math.Max(notes[before].Onset + 0.03, at - 0.005) };
        notes.Add(new(open[s] + fret, at, at + length, s, fret, 0.45 + 0.35 * random.NextDouble()));
    }
}
