using System.Collections.Immutable;
using Harkbook.Music.Instruments;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs;

/// <summary>
/// Shapes for a song's chords under another capo, as they sound in the song. A chord that is picked keeps its strings where a hand can hold
/// that, so that shape and picked notes agree; any other takes the easiest shape, and of several shapes for one chord each the nearest to what
/// it sounded.
/// </summary>
internal sealed class ShapesUnderCapo(Song song, Capo capo)
{
    private readonly Tuning tuning = song.Tuning.Value;
    private readonly HashSet<string> picked = [.. song.Bars.Where(b => !b.Picked.IsEmpty).SelectMany(b => b.Chords).Select(c => c.Value.Name)];

    public ImmutableArray<NamedShape> Find(out string problem)
    {
        var found = ImmutableArray.CreateBuilder<NamedShape>();
        foreach (var shape in song.Shapes)
        {
            if (Under(shape, found) is not { } under)
            {
                problem = $"no hand can play {shape.Symbol} with {(capo.Fret == 0 ? "no capo" : $"the capo on fret {capo.Fret}")} in this tuning";
                return [];
            }
            found.Add(shape with { Shape = under, Standing = Standing.Assumed });
        }
        problem = "";
        return found.ToImmutable();
    }

    private Shape? Under(NamedShape shape, IEnumerable<NamedShape> taken)
    {
        var moved = Moved(shape.Shape);
        if (moved is not null && picked.Contains(shape.Name))
            return moved;
        var fresh = VoicingSearch.Find(ChordSymbol.Read(shape.Symbol), tuning, capo).Select(v => v.Shape)
            .Where(s => !taken.Any(t => t.Symbol == shape.Symbol && t.Shape.Frets.SequenceEqual(s.Frets))).ToList();
        return (song.Shapes.Count(s => s.Symbol == shape.Symbol) > 1 ? fresh.MinBy(s => Distance(s, shape.Shape)) : fresh.FirstOrDefault()) ?? moved;
    }

    /// <summary>The same notes on the same strings; null where a string would have to sound lower than open, or no hand can hold it.</summary>
    private Shape? Moved(Shape shape)
    {
        var by = song.Capo.Value.Fret - capo.Fret;
        if (shape.Frets.Any(f => f + by is < 0 or > 20))
            return null;
        var moved = Shape.Of([.. shape.Frets.Select(f => f + by)]);
        return FingeringSolver.Solve(moved, capo) is { IsPlayable: true, Fingering: { } easiest } ? moved.WithFingers(easiest.Fingers) : null;
    }

    private double Distance(Shape shape, Shape before) => Math.Abs(Middle(shape, capo) - Middle(before, song.Capo.Value));

    private double Middle(Shape shape, Capo under) => shape.Pitches(tuning, under).Select(p => (double)p.Midi).DefaultIfEmpty(0).Average();
}
