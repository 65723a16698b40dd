using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Instruments.Voicings;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Training.Fretting;

/// <summary>
/// Makes up guitar pieces: chords in shapes that a search found playable, strummed, picked or broken, and lines in a position,
/// with strings that ring until they are stopped. One seed, one piece.
/// </summary>
internal sealed class Player
{
    private static readonly string[] Progressions =
    [
        "1 4 1 5", "1 5 6m 4", "6m 4 1 5", "1 b7 4 1", "1m b7 b6 5", "2m 5 1 1", "1 6m 2m 5", "1 4 5 4", "1m 4 1m 5", "1 3m 4 5", "1 1 4 5", "1m b3 b7 4",
        "17 47 57 47", "1sus4 1 4 1", "1 5/7 6m 4", "1maj7 4maj7 2m7 5", "1m7 4m7 b7 b3",
    ];

    private static readonly Dictionary<(string, int, string), Voicing[]> ShapesFound = [];

    private readonly Random random;
    private readonly Tuning tuning;
    private readonly Capo capo;
    private readonly Fretboard board;
    private readonly Ringing ringing;
    private readonly double beat;
    private readonly Key key;
    private readonly List<PlayedChord> chords = [];
    private readonly Dictionary<Chord, Shape?> mine = [];
    private readonly bool closed;
    private readonly double openLiking, colour;
    private readonly Dictionary<string, Chord> named = [];
    private Shape? previous;

    private Player(Random random, string name, Tuning tuning, Capo capo)
    {
        (this.random, this.tuning, this.capo) = (random, tuning, capo);
        board = new(tuning, capo);
        ringing = new(board, random);
        beat = 60 / (70 + 70 * random.NextDouble());
        closed = name is "standard" or "half step down" or "whole step down" && random.NextDouble() < 0.25;
        openLiking = name is "standard" or "half step down" or "whole step down" ? 0.4 * random.NextDouble() : 0.3 + 0.5 * random.NextDouble();
        colour = closed || openLiking < 0.2 ? 0.15 : 0.08;
        key = PickKey(name);
    }

    public static MadePiece Play(NamedTuning named, int capo, double length, int seed)
    {
        var player = new Player(new Random(seed), named.Name, named.Tuning, Capo.At(capo));
        var style = player.Play(length);
        return new(named.Tuning, Capo.At(capo), named.Name, style, player.key, player.ringing.Notes(length), player.chords, length);
    }

    /// <summary>
    /// Common practice: an altered tuning is chosen for the key that its strings make; standard shapes are played in open keys, now and then in any.
    /// </summary>
    private Key PickKey(string name)
    {
        var minor = name.Contains("minor") ? random.NextDouble() < 0.85 : !name.StartsWith("open", StringComparison.Ordinal) && random.NextDouble() < 0.25;
        int[] roots = name switch
        {
            "drop D" or "double drop D" or "D A D G A D" => [2, 2, 2, 7, 9],
            "C6" => [0, 0, 5, 7],
            "C G D G A D" or "C G D G C D" => [7, 7, 0, 2],
            "all fifths" or "all fourths" => [0, 7, 2, 9, 4],
            "drop C" => [0, 0, 0, 5, 7],
            _ when name.StartsWith("open", StringComparison.Ordinal) => OpenRoots(name[5]),
            _ => [.. (minor ? new[] { 9, 4, 2, 11 } : [7, 0, 2, 9, 4, 5]).Select(r => r + tuning.Strings[1].Midi - Tuning.Standard.Strings[1].Midi)],
        };
        var root = closed ? random.Next(12) : roots[random.Next(roots.Length)] + capo.Fret;
        return new(PitchName.FromPitchClass((root + 24) % 12), minor ? Mode.Minor : Mode.Major);

        static int[] OpenRoots(char letter)
        {
            var own = PitchName.Parse(letter.ToString()).PitchClass;
            return [own, own, own, own, own + 5];
        }
    }

    private string Play(double length)
    {
        string[] styles = ["strummed", "broken", "bass and picking", "line", "drone line", "sparse"];
        var first = styles[random.Next(styles.Length)];
        var second = random.NextDouble() < 0.5 ? first : styles[random.Next(styles.Length)];
        var (time, wordiness) = (0.2, random.Next(1, 4));
        var progression = Words();
        while (time < length - 4 * beat)
        {
            if (random.NextDouble() < 0.08)
                progression = Words();
            var style = random.NextDouble() < 0.65 ? first : second;
            for (var i = 0; i < progression.Length && time < length - 2 * beat; i++)
            {
                var beats = wordiness == 1 ? 2 : 4;
                var end = time + beats * beat;
                Perform(style, ChordOf(progression[i]), time, end);
                time = end;
            }
        }
        return first == second ? first : $"{first}, {second}";
    }

    private string[] Words()
    {
        var all = Progressions.Where(p => p.StartsWith("1m ", StringComparison.Ordinal) == (key.Mode == Mode.Minor) || random.NextDouble() < 0.1).ToArray();
        return all[random.Next(all.Length)].Split(' ');
    }

    /// <summary>Now and then a song colours one of its chords, and then mostly each time.</summary>
    private Chord ChordOf(string word)
    {
        if (named.TryGetValue(word, out var known) && random.NextDouble() < 0.93)
            return known;
        return named[word] = Made(word);
    }

    private Chord Made(string word)
    {
        int[] steps = [0, 2, 4, 5, 7, 9, 11];
        var flat = word[0] == 'b' ? 1 : 0;
        var degree = word[flat] - '1';
        var root = PitchName.FromPitchClass((key.Tonic.PitchClass + steps[degree] - flat + 12) % 12);
        var rest = word[(flat + 1)..];
        var bass = "";
        if (rest.Contains('/'))
            (rest, bass) = (rest[..rest.IndexOf('/')], "/" + PitchName.FromPitchClass((key.Tonic.PitchClass + steps[rest[^1] - '1']) % 12));
        if (rest.Length == 0 && random.NextDouble() < colour)
            rest = new[] { "7", "maj7", "sus2", "sus4", "add9", "6", "5" }[random.Next(7)];
        return ChordSymbol.TryRead($"{root}{rest}{bass}", out var chord) ? chord! : Chord.Of(root, ChordQuality.Major);
    }

    private void Perform(string style, Chord chord, double from, double to)
    {
        if (style is "line")
        {
            Line(from, to, drone: false, chord);
            return;
        }
        var shape = ShapeOf(chord);
        if (shape is null)
            return;
        chords.Add(new(from, to, chord, shape, style == "drone line"));
        ringing.Hold(shape, from);
        switch (style)
        {
            case "strummed": Strum(shape, from, to); break;
            case "broken": Break(shape, from, to); break;
            case "bass and picking": Alternate(shape, from, to); break;
            case "drone line": Line(from, to, drone: true, chord); break;
            default: ringing.Strum(shape, from, 0.02 + 0.03 * random.NextDouble(), 0.7, up: false, strings: 6); break;
        }
    }

    /// <summary>A player keeps to one shape of a chord: an easy one, near the one before; some players shun open strings.</summary>
    private Shape? ShapeOf(Chord chord)
    {
        if (mine.TryGetValue(chord, out var known) && random.NextDouble() < 0.95)
            return previous = known;
        var ways = Ways(chord);
        var fit = closed ? ways.Where(w => !w.Shape.Frets.Contains(0)).ToArray() : ways;
        var before = previous;
        var best = (fit.Length > 0 ? fit : ways)
            .MinBy(w => w.Cost.Total + (before is null ? 0 : (closed ? 1 : 0.3) * MovementCost.Between(before, w.Shape)) - openLiking * w.Shape.Frets.Count(f => f == 0) - 0.3 * Math.Log(1 - random.NextDouble()));
        return previous = mine[chord] = best?.Shape;
    }

    private Voicing[] Ways(Chord chord)
    {
        lock (ShapesFound)
        {
            var name = (tuning.ToString(), capo.Fret, chord.ToString());
            if (!ShapesFound.TryGetValue(name, out var ways))
                ShapesFound[name] = ways = [.. VoicingSearch.Find(chord, tuning, capo, new() { Results = 60 })];
            return ways;
        }
    }

    private void Strum(Shape shape, double from, double to)
    {
        var step = beat / 2;
        for (var (time, i) = (from, 0); time < to - 0.05; time += step, i++)
        {
            if (i > 0 && random.NextDouble() < 0.3)
                continue;
            var up = i % 2 == 1;
            ringing.Strum(shape, time, 0.008 + 0.03 * random.NextDouble(), up ? 0.45 : 0.7, up, up ? random.Next(3, 5) : random.NextDouble() < 0.2 ? random.Next(3, 6) : 6);
        }
    }

    private void Break(Shape shape, double from, double to)
    {
        int[] strings = [.. Enumerable.Range(0, shape.Frets.Length).Where(s => shape.Frets[s] is not null)];
        var order = strings.Length < 4 ? strings : random.Next(3) switch { 0 => strings, 1 => [.. strings, .. strings.Reverse().Skip(1)], _ => [strings[0], .. strings.Skip(1).OrderBy(_ => random.Next())] };
        var step = beat / (random.Next(4) == 0 ? 4 : 2);
        for (var (time, i) = (from, 0); time < to - 0.05; time += step, i++)
        {
            var s = order[i % order.Length];
            ringing.Sound(s, shape.Frets[s]!.Value, time, 0.6);
            if (i == 0 && random.NextDouble() < 0.4)
                ringing.Sound(order[^1], shape.Frets[order[^1]]!.Value, time, 0.5);
        }
    }

    private void Alternate(Shape shape, double from, double to)
    {
        int[] strings = [.. Enumerable.Range(0, shape.Frets.Length).Where(s => shape.Frets[s] is not null)];
        var basses = strings.Take(Math.Min(3, Math.Max(1, strings.Length / 2))).ToArray();
        var trebles = strings.Except(basses.Take(1)).TakeLast(3).ToArray();
        for (var (time, i) = (from, 0); time < to - 0.05; time += beat / 2, i++)
        {
            if (i % 2 == 0)
            {
                var s = basses[i / 2 % 2 == 0 ? 0 : Math.Min(basses.Length - 1, 1 + random.Next(2))];
                ringing.Sound(s, shape.Frets[s]!.Value, time, 0.7);
            }
            if (trebles.Length > 0 && (i % 2 == 1 || random.NextDouble() < 0.25))
            {
                var s = trebles[random.Next(trebles.Length)];
                if (s != basses[0] || i % 2 == 1)
                    ringing.Sound(s, shape.Frets[s]!.Value, time, 0.55);
            }
        }
    }

    /// <summary>A line of scale notes within a position, or along one high string over open ones.</summary>
    private void Line(double from, double to, bool drone, Chord chord)
    {
        var scale = key.Mode.IsMinor ? new[] { 0, 2, 3, 5, 7, 8, 10 } : [0, 2, 4, 5, 7, 9, 11];
        var pentatonic = random.NextDouble() < 0.5 ? (key.Mode.IsMinor ? new[] { 0, 3, 5, 7, 10 } : [0, 2, 4, 7, 9]) : scale;
        var position = random.NextDouble() < 0.6 ? 0 : random.Next(1, 10);
        var places = new List<(int S, int Fret, int Midi)>();
        var strings = board.Tuning.Count;
        for (var s = drone ? strings - 2 : 0; s < strings; s++)
        {
            for (var fret = drone ? 0 : position; fret <= (drone ? 9 : position + (position == 0 ? 3 : 3)); fret++)
            {
                if (fret <= board.LastFret(s) && pentatonic.Contains((board.MidiAt(s, fret) - key.Tonic.PitchClass + 120) % 12))
                    places.Add((s, fret, board.MidiAt(s, fret)));
            }
        }
        if (places.Count < 3)
            return;
        places = [.. places.OrderBy(p => p.Midi).ThenByDescending(p => p.S)];
        places = [.. places.Where((p, i) => i == 0 || p.Midi != places[i - 1].Midi)];
        if (drone && random.NextDouble() < 0.6)
            places = [.. places.Where(p => p.Fret <= 4)];
        if (places.Count == 0)
            return;
        var at = random.Next(places.Count);
        var step = beat / (random.Next(3) == 0 ? 4 : 2);
        int[] open = [.. Enumerable.Range(0, strings - 2).Where(s => chord.PitchClasses.Contains(board.MidiAt(s, 0) % 12))];
        for (var (time, i) = (from, 0); time < to - 0.05; time += step, i++)
        {
            if (drone && i % 4 == 0 && open.Length > 0)
                ringing.Sound(open[random.Next(open.Length)], 0, time, 0.6);
            at = Math.Clamp(at + random.Next(-2, 3), 0, places.Count - 1);
            if (random.NextDouble() < 0.2)
                continue;
            ringing.Sound(places[at].S, places[at].Fret, time, 0.6, lineNote: true);
        }
    }
}
