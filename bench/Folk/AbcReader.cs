using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;

namespace Harkbook.Bench.Folk;

/// <summary>
/// Reads single tunes of ABC (the abc music standard 2.1, December 2011): the fields X, T, M, L and K, notes with accidentals, octaves, lengths,
/// ties and triplets, notes in brackets, rests, chord symbols in quotes, bar lines, repeats with first and second endings, and line continuations.
/// Grace, decorations, words and everything else are left out.
/// </summary>
internal sealed partial class AbcReader
{
    private readonly List<Item> items = [];
    private string title = "";
    private readonly int[] signature = new int[7];
    private (int Count, int Unit) meter = (4, 4);
    private double unit;

    private enum Kind { Note, Chord, Bar, Ending, Key }

    private sealed record Item(Kind Kind, double Length, ImmutableArray<int> Pitches, string Text, (int Count, int Unit) Meter, bool Tied);

    public static IEnumerable<AbcTune> ReadAll(string text) =>
        Regex.Split(text.Replace("\r", "", StringComparison.Ordinal), @"(?m)^(?=X:)").Where(t => t.StartsWith("X:", StringComparison.Ordinal)).Select(t => new AbcReader().Read(t));

    private AbcTune Read(string text)
    {
        foreach (var line in text.Replace("\\\n", "", StringComparison.Ordinal).Split('\n').Where(l => !l.StartsWith('%')))
        {
            if (Field().Match(line) is { Success: true } field)
                ReadField(field.Groups[1].Value[0], field.Groups[2].Value.Trim());
            else
                ReadMusic(line);
        }
        return Played();
    }

    private void ReadField(char name, string value)
    {
        if (name == 'T')
            title = value;
        if (name == 'L')
            unit = Length(value, 1);
        if (name == 'M')
            meter = value switch { "C" => (4, 4), "C|" => (2, 2), _ => (Number(value.Split('/')[0]), Number(value.Split('/')[1])) };
        if (name == 'K')
            ReadKey(value);
    }

    private void ReadKey(string value)
    {
        var match = Key().Match(value);
        var (letter, sign, words) = (match.Groups[1].Value, match.Groups[2].Value, match.Groups[3].Value.ToLowerInvariant());
        var mode = words.StartsWith("mix", StringComparison.Ordinal) ? "mixolydian" : words.StartsWith("dor", StringComparison.Ordinal) ? "dorian" : words.StartsWith('m') && !words.StartsWith("maj", StringComparison.Ordinal) ? "minor" : "major";
        var fifths = "FCGDAEB".IndexOf(letter, StringComparison.Ordinal) - 1 + (sign switch { "#" => 7, "b" => -7, _ => 0 }) + (mode switch { "mixolydian" => -1, "dorian" => -2, "minor" => -3, _ => 0 });
        for (var i = 0; i < 7; i++)
            signature["CDEFGAB".IndexOf("FCGDAEB"[i], StringComparison.Ordinal)] = fifths > i ? 1 : -fifths > 6 - i ? -1 : 0;
        Add(new(Kind.Key, 0, [], $"{letter}{sign} {mode}", meter, false));
    }

    private void ReadMusic(string line)
    {
        var (inBar, triplet) = (new Dictionary<int, int>(), 0);
        var scale = unit > 0 ? unit : (double)meter.Count / meter.Unit < 0.75 ? 1 / 16.0 : 1 / 8.0;
        foreach (Match m in Token().Matches(line))
        {
            if (m.Groups["chord"].Success)
                Add(new(Kind.Chord, 0, [], m.Groups["chord"].Value.Replace(" ", "", StringComparison.Ordinal), meter, false));
            else if (m.Groups["bar"].Success || m.Groups["ending"].Success)
            {
                inBar.Clear();
                if (m.Groups["bar"].Success)
                    Add(new(Kind.Bar, 0, [], m.Groups["bar"].Value, meter, false));
                if (m.Groups["ending"].Success)
                    Add(new(Kind.Ending, 0, [], m.Groups["ending"].Value, meter, false));
            }
            else if (m.Groups["triplet"].Success)
                triplet = 3;
            else if (m.Groups["note"].Success)
            {
                var pitches = Pitch().Matches(m.Groups["note"].Value).Select(n => Midi(n, inBar)).ToImmutableArray();
                var inner = m.Groups["inner"].Success ? m.Groups["inner"].Value : "";
                var length = scale * Length(inner, 1) * Length(m.Groups["length"].Value, 1) * (triplet-- > 0 ? 2 / 3.0 : 1);
                Add(new(Kind.Note, length, pitches, "", meter, m.Groups["tie"].Success));
            }
        }
    }

    private void Add(Item item) => items.Add(item);

    private int Midi(Match note, Dictionary<int, int> inBar)
    {
        var letter = note.Groups["letter"].Value[0];
        var step = "CDEFGAB".IndexOf(char.ToUpperInvariant(letter), StringComparison.Ordinal);
        var octave = (char.IsLower(letter) ? 1 : 0) + note.Groups["octave"].Value.Sum(c => c == '\'' ? 1 : -1);
        var place = step + 7 * octave;
        var sign = note.Groups["sign"].Value;
        if (sign.Length > 0)
            inBar[place] = sign switch { "^" => 1, "_" => -1, "^^" => 2, "__" => -2, _ => 0 };
        return 60 + new[] { 0, 2, 4, 5, 7, 9, 11 }[step] + 12 * octave + (inBar.TryGetValue(place, out var altered) ? altered : signature[step]);
    }

    /// <summary>The items in the order in which they sound.</summary>
    private IEnumerable<Item> Order()
    {
        var (start, second) = (0, false);
        for (var i = 0; i < items.Count; i++)
        {
            var item = items[i];
            if (item.Kind == Kind.Ending && item.Text == "1" && second)
            {
                (i, second) = (items.FindIndex(i, x => x.Kind == Kind.Ending && x.Text == "2"), false);
                if (i < 0)
                    yield break;
                continue;
            }
            yield return item;
            if (item.Kind != Kind.Bar)
                continue;
            if (item.Text.StartsWith(':') && !second && i > start)
                (i, second) = (start, true);
            else if (item.Text.StartsWith(':') || item.Text.EndsWith(':') || item.Text.StartsWith("||", StringComparison.Ordinal))
                (start, second) = (i, false);
        }
    }

    private AbcTune Played()
    {
        var (notes, chords, keys, bars) = (new List<AbcNote>(), new List<AbcMark>(), new List<AbcMark>(), new List<AbcBar>());
        var (now, tied) = (0.0, false);
        foreach (var item in Order())
        {
            if (item.Kind == Kind.Key)
                keys.Add(new(now, item.Text));
            if (item.Kind == Kind.Chord)
                chords.Add(new(now, item.Text));
            if (item.Kind == Kind.Bar && (bars.Count == 0 || now - bars[^1].Start > 1e-6))
                bars.Add(new(now, item.Meter.Count, item.Meter.Unit));
            if (item.Kind != Kind.Note)
                continue;
            if (tied && notes.Count > 0 && notes[^1].Pitches.SequenceEqual(item.Pitches))
                notes[^1] = notes[^1] with { Length = notes[^1].Length + item.Length };
            else if (!item.Pitches.IsEmpty)
                notes.Add(new(now, item.Length, item.Pitches));
            (now, tied) = (now + item.Length, item.Tied);
        }
        return new(title, [.. notes], [.. chords], [.. keys], [.. Whole(bars, now)], now);
    }

    /// <summary>Leaves out the bar lines in the middle of a bar, where a part ends and the next begins with a pick-up.</summary>
    private static IEnumerable<AbcBar> Whole(List<AbcBar> bars, double end)
    {
        var before = double.NegativeInfinity;
        for (var i = 0; i < bars.Count && bars[i].Start < end - 1e-6; i++)
        {
            var here = i + 1 < bars.Count ? bars[i + 1].Start - bars[i].Start : end - bars[i].Start;
            if (here < bars[i].Length - 1e-6 && bars[i].Start - before < bars[i].Length - 1e-6)
                continue;
            before = bars[i].Start;
            yield return bars[i];
        }
    }

    /// <summary>A length as 3, 3/2, /2 or /.</summary>
    private static double Length(string text, double otherwise)
    {
        if (text.Length == 0)
            return otherwise;
        var parts = text.Split('/');
        var top = parts[0].Length == 0 ? 1 : Number(parts[0]);
        return parts.Length == 1 ? top : top / (parts[1].Length == 0 ? Math.Pow(2, parts.Length - 1) : Number(parts[1]));
    }

    private static int Number(string text) => int.Parse(text, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^([A-Za-z]):(.*)$")]
    private static partial Regex Field();

    [GeneratedRegex(@"^([A-G])([#b]?)\s*([A-Za-z]*)")]
    private static partial Regex Key();

    [GeneratedRegex(@"(?<sign>\^\^|\^|__|_|=)?(?<letter>[A-Ga-g])(?<octave>[,']*)")]
    private static partial Regex Pitch();

    [GeneratedRegex("""
        "(?<chord>[^"]*)"|\[(?<ending>[12])|(?<bar>:?\|+\]?:?|:\|\||::)(?<ending>[12])?|(?<triplet>\(3)|(?<note>\[(?:(?:\^\^|\^|__|_|=)?[A-Ga-g][,']*(?<inner>[\d/]*)\s*)+\]|(?:\^\^|\^|__|_|=)?[A-Ga-g][,']*|[zx])(?<length>[\d/]*)(?<tie>-)?
        """)]
    private static partial Regex Token();
}
