using System.Diagnostics.CodeAnalysis;

namespace Harkbook.Music.Theory.Labels;

/// <summary>
/// Chord labels for annotations, as in "D:min7/b3", "C:maj(*3,9)" or "N": the syntax of Harte, Sandler, Abdallah and Gómez,
/// "Symbolic representation of musical chords", ISMIR 2005, with the later shorthands. The bass is a degree, not a note.
/// </summary>
public static class HarteLabel
{
    private const string What = "a chord label";

    public static bool TrySplit([NotNullWhen(true)] string? label, [NotNullWhen(true)] out HarteParts? parts, out ReadProblem problem)
    {
        var reader = new HarteReader(label ?? "");
        parts = reader.Read();
        problem = parts is null ? reader.Problem : default;
        return parts is not null;
    }

    /// <summary>The label's parts, N and X included.</summary>
    public static HarteParts Split(string label) =>
        TrySplit(label, out var parts, out var problem) ? parts : throw new FormatException(problem.Describe(label, What));

    /// <summary>The label as numbers for scoring.</summary>
    public static HarteEncoding Encode(string label, bool reduceExtended = false) => HarteEncoding.Of(Split(label), reduceExtended);

    /// <summary>The chord as numbers for scoring.</summary>
    public static HarteEncoding Encode(Chord chord, bool reduceExtended = false) => Encode(Write(chord), reduceExtended);

    public static bool TryRead([NotNullWhen(true)] string? label, [NotNullWhen(true)] out Chord? chord) =>
        TryRead(label, out chord, out _);

    /// <summary>Reads a label as a chord. X names no chord, so it can't be read as one; <see cref="Split"/> takes it.</summary>
    public static bool TryRead([NotNullWhen(true)] string? label, [NotNullWhen(true)] out Chord? chord, out ReadProblem problem)
    {
        chord = TrySplit(label, out var parts, out problem) ? ToChord(parts) : null;
        if (parts?.Sound == HarteSound.Unknown)
            problem = new(0, "a chord or N; X stands for a chord that nobody named");
        return chord is not null;
    }

    public static Chord Read(string label) =>
        TryRead(label, out var chord, out var problem) ? chord : throw new FormatException(problem.Describe(label, What));

    /// <summary>The shortest label of a chord. Degrees 14 and 15, which labels lack, are written an octave down.</summary>
    public static string Write(Chord chord)
    {
        if (chord.IsNone)
            return "N";
        var bass = Interval.Between(chord.Root, chord.Bass);
        return chord.Root + Kind(chord.Quality) + (chord.Bass == chord.Root ? "" : "/" + bass.DegreeName);
    }

    private static Chord? ToChord(HarteParts parts) => parts.Sound switch
    {
        HarteSound.Chord => Chord.Of(parts.Root, parts.Quality, parts.Root + parts.Bass),
        HarteSound.None => Chord.None,
        _ => null,
    };

    private static string Kind(ChordQuality quality)
    {
        var intervals = quality.Intervals.Select(i => i.Steps > 12 ? i - Interval.Octave : i).Distinct().ToList();
        var best = HarteShorthand.All.MinBy(s => Changes(s, intervals).Count)!;
        var list = string.Join(',', Changes(best, intervals));
        return $":{best.Name}{(list.Length == 0 ? "" : $"({list})")}";
    }

    private static List<string> Changes(HarteShorthand shorthand, List<Interval> intervals) =>
    [
        .. intervals.Except(shorthand.Quality.Intervals).Select(i => i.DegreeName),
        .. shorthand.Quality.Intervals.Except(intervals).Select(i => "*" + i.DegreeName),
    ];
}
