using System.Collections.Immutable;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Songs;

/// <summary>A song's shapes that contradict the chords they are named for.</summary>
public static class WrongShapes
{
    public static ImmutableArray<(NamedShape Shape, ShapeContradiction Against)> Of(Song song) =>
    [
        .. from shape in song.Shapes
           where shape.Shape.Frets.Length == song.Tuning.Value.Count
           let against = ShapeContradiction.Of(shape.Shape, song.Tuning.Value, song.Capo.Value, ChordSymbol.Read(shape.Symbol))
           where against is not null
           select (shape, against),
    ];

    /// <summary>The song as its chords say it, without those shapes.</summary>
    public static Song Without(Song song)
    {
        var wrong = Of(song).Select(w => w.Shape.Name).ToHashSet();
        return wrong.Count == 0 ? song : song with
        {
            Shapes = [.. song.Shapes.Where(s => !wrong.Contains(s.Name))],
            Sections = [.. song.Sections.Select(s => s with { Bars = [.. s.Bars.Select(Bare)] })],
        };

        Bar Bare(Bar bar) => bar with { Chords = [.. bar.Chords.Select(c => wrong.Contains(c.Value.Name) ? c with { Value = c.Value with { Shape = null } }
            : c)] };
    }
}
