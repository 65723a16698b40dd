using System.Collections.Immutable;
using Harkbook.Music.Analysis.Harmony.Numerals;
using Harkbook.Music.Analysis.Harmony.Readings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Harmony;

/// <summary>Goes through a song's chords; equal chords in a row are one chord to their neighbours.</summary>
internal static class SongWalk
{
    private sealed record Use(SongPlace Place, Chord Chord, Key Key, Standing Standing);

    public static ImmutableArray<PlacedChord> Read(Song song)
    {
        var uses = Uses(song).ToList();
        var sounding = uses.Where(u => !u.Chord.IsNone).ToList();
        var blues = sounding.GroupBy(u => u.Key).Where(g => IsBlues(g.Key, g.Select(u => u.Chord))).Select(g => g.Key).ToHashSet();
        var placed = uses.Select((use, i) => Placed(use, Neighbour(uses, i, -1, u => u.Chord), Neighbour(uses, i, 1, u => u.Chord), blues.Contains(use.Key)));
        return [.. placed.Select((p, i) => p with { IsOverPedal = IsOverPedal(uses, i, p) })];
    }

    private static IEnumerable<Use> Uses(Song song) =>
        from section in song.Sections
        from bar in section.Bars.Select((b, i) => (Bar: b, Key: section.KeyAt(i + 1, song.Key.Value)))
        from claim in bar.Bar.Chords
        select new Use(new(bar.Bar.Number, claim.Start, claim.Length), claim.Value.Chord, bar.Key, claim.Standing);

    /// <summary>The nearest use of another chord that sounds, going on by a step of 1 or −1; null where there is none.</summary>
    public static T? Neighbour<T>(IReadOnlyList<T> uses, int index, int step, Func<T, Chord> chordOf)
        where T : class
    {
        for (var i = index + step; i >= 0 && i < uses.Count; i += step)
            if (!chordOf(uses[i]).IsNone && chordOf(uses[i]) != chordOf(uses[index]))
                return uses[i];
        return null;
    }

    private static PlacedChord Placed(Use use, Use? before, Use? after, bool isBlues) =>
        new(use.Place, ChordInContext.Of(use.Chord, use.Key, before?.Chord, after?.Chord, isBlues), use.Standing)
        {
            Pivot = PivotTo(use, after),
        };

    private static RomanNumeral? PivotTo(Use use, Use? after) =>
        after is not null && after.Key != use.Key && !use.Chord.IsNone && IsNative(use.Chord, use.Key) && IsNative(use.Chord, after.Key)
            ? RomanNumeral.Of(use.Chord, after.Key)
            : null;

    private static bool IsNative(Chord chord, Key key) => Tones.Of(chord, key.Tonic).IsIn(Tones.Of(key.Mode));

    /// <summary>Home or the fifth degree stays in the bass through chords in a row, one of which stands on it. Home over five before five only delays
    /// it.</summary>
    private static bool IsOverPedal(List<Use> uses, int index, PlacedChord placed)
    {
        var (chord, key) = (uses[index].Chord, uses[index].Key);
        if (chord.IsNone || chord.Bass == chord.Root || FunctionalDegree.Above(chord.Bass, key) is not (0 or 7)
            || (placed.Reading.Function == HarmonicFunction.LeadsHome && placed.Reading.Numeral!.SemitonesAboveHome == 0))
            return false;
        bool OnSameBass(Use use) => !use.Chord.IsNone && use.Chord.Bass.PitchClass == chord.Bass.PitchClass;
        return uses.Take(index).Reverse().TakeWhile(OnSameBass).Concat(uses.Skip(index + 1).TakeWhile(OnSameBass)).Any(u => u.Chord.Root == u.Chord.Bass);
    }

    /// <summary>Dominant sevenths on both the one and the four chord.</summary>
    private static bool IsBlues(Key key, IEnumerable<Chord> chords)
    {
        var roots = chords.Where(c => ChordTraits.IsDominantSeventh(c.Quality)).Select(c => FunctionalDegree.Above(c.Root, key)).ToHashSet();
        return roots.Contains(0) && roots.Contains(5);
    }
}
