using System.Collections.Immutable;

namespace Harkbook.Music.Theory.Symbols;

/// <summary>One name that some sounding notes can bear.</summary>
/// <param name="Chord">The chord, spelled by its function. It may hold a fifth that does not sound (see <paramref name="LeftOut"/>).</param>
/// <param name="Cost">How far-fetched the name is: 0 for a plain triad in root position; only the order between names of one set means anything.</param>
/// <param name="LeftOut">Intervals of the chord that do not sound; guitarists leave the fifth out without saying so.</param>
/// <param name="Key">The key that the name was weighed in, where one was given.</param>
public sealed record ChordName(Chord Chord, double Cost, ImmutableArray<Interval> LeftOut, Key? Key)
{
    /// <summary>False on instruments whose lowest note is no bass, as the ukulele's.</summary>
    public bool HasBass { get; init; } = true;

    /// <summary>The symbol, as in "Am7/G".</summary>
    public string Symbol => ChordSymbol.Write(Chord);

    /// <summary>Why the notes can be called so, in words.</summary>
    public string Reason => Chord.IsNone ? "no note sounds" : string.Join("; ", Parts());

    private IEnumerable<string> Parts()
    {
        var sounding = Chord.Quality.Intervals.Except(LeftOut).ToList();
        yield return sounding.Count == 1
            ? $"{Chord.Root} alone sounds"
            : $"{string.Join(' ', sounding.Select(i => Chord.Root + i))} are {string.Join(' ', sounding.Select(i => i.DegreeName))} of {Chord.Root}";
        if (HasBass)
            yield return BassPart();
        foreach (var interval in LeftOut)
            yield return $"the {Ordinal(interval)}, {Chord.Root + interval}, is left out, as is common";
        if (sounding.Count > 1 && sounding.All(i => Floor.Mod(i.Steps, 7) is not (1 or 2 or 3)))
            yield return "no third sounds, so it is neither major nor minor";
        if (IsSymmetric(Chord.Quality))
            yield return "its notes part the octave evenly, so each of them could be the root";
        if (Key is not null)
            yield return KeyPart(Key);
    }

    private string BassPart()
    {
        if (Chord.Bass == Chord.Root)
            return "the root is in the bass";
        var held = Chord.Quality.Intervals.FirstOrDefault(i => (Chord.Root + i) == Chord.Bass);
        return held == default
            ? $"the bass, {Chord.Bass}, is not one of its notes"
            : $"the {Ordinal(held)}, {Chord.Bass}, is in the bass";
    }

    private string KeyPart(Key key)
    {
        var degree = key.DegreeOf(Chord.Root).DegreeName;
        return key.Contains(Chord) ? $"every note is in {key}" : $"its root is {degree} of {key}";
    }

    internal static bool IsSymmetric(ChordQuality quality) => quality == ChordQuality.Augmented || quality == ChordQuality.Diminished7;

    private static string Ordinal(Interval interval) => interval.Degree.Degree switch
    {
        1 => "root",
        2 => "second",
        3 => "third",
        4 => "fourth",
        5 => "fifth",
        6 => "sixth",
        7 => "seventh",
        9 => "ninth",
        11 => "eleventh",
        13 => "thirteenth",
        var other => $"{other}th",
    };
}
