using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs;

/// <summary>A song made over for a pupil whose capo is elsewhere than the song's, both over all strings.</summary>
public static class CapoChange
{
    /// <summary>The hand does the same, and all that sounds moves with the capo: names, keys, the harmonica.</summary>
    public static Song SameShapes(Song song, Capo capo)
    {
        RequireWhole(song, capo);
        var names = CapoNames.Of(song);
        var raise = CapoNames.RaiseFrom(names?.Hand(song.Key.Value) ?? song.Key.Value, capo);
        var by = raise - (names?.Raise ?? Interval.Unison);
        return SongTransposition.NamesOf(song, by) with
        {
            Capo = new(capo, Standing.Decided),
            Harp = SongTransposition.HarpOf(song, by),
            HandNames = song.HandNames is null ? null : raise,
        };
    }

    /// <summary>
    /// What sounds stays, so that it goes with the record: shapes are searched anew, and picked notes move to the frets where they sound.
    /// False, with the reason, where a note or a chord can't be had under the capo.
    /// </summary>
    public static bool TrySameSound(Song song, Capo capo, [NotNullWhen(true)] out Song? moved, out string problem)
    {
        RequireWhole(song, capo);
        moved = null;
        var shapes = new ShapesUnderCapo(song, capo).Find(out problem);
        var sections = problem.Length > 0 ? [] : new PickedUnderCapo(song, capo, shapes).Sections(out problem);
        if (problem.Length > 0)
            return false;
        moved = song with
        {
            Capo = new(capo, Standing.Decided),
            HandNames = song.HandNames is null ? null : CapoNames.RaiseTo(song.Key.Value, capo),
            Shapes = shapes,
            Sections = [.. sections.Select(s => s with { Bars = [.. s.Bars.Select(b => Held(b, shapes))] })],
        };
        return true;
    }

    private static Bar Held(Bar bar, ImmutableArray<NamedShape> shapes) => bar with
    {
        Chords = [.. bar.Chords.Select(c => c with { Value = c.Value with { Shape = shapes.FirstOrDefault(s => s.Name == c.Value.Name)?.Shape } })],
    };

    private static void RequireWhole(Song song, Capo capo)
    {
        if (song.Capo.Value.IsPartial || capo.IsPartial)
            throw new ArgumentException("A capo that stops only some strings can't be exchanged for another.", nameof(capo));
    }
}
