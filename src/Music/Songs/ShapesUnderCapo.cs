using System.Collections.Immutable;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Instruments.Voicings;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Songs;

/// <summary>
/// Shapes for a song's chords under another capo, as they sound in the song: the easiest that beginners learn, near to the shape before, else
/// the easiest of all. Of several shapes for one chord each is the nearest to what it sounded. A chord that is picked takes a shape that has its
/// picked notes where they come to lie; where none has, its strings stay.
/// </summary>
internal sealed class ShapesUnderCapo(Song song, Capo capo)
{
    private const int Considered = 60;
    private const double MovementShare = 0.25;

    private readonly Tuning tuning = song.Tuning.Value;
    private readonly PickedByShape picked = new(song);

    public ImmutableArray<NamedShape> Find(out string problem)
    {
        var found = ImmutableArray.CreateBuilder<NamedShape>();
        foreach (var shape in song.Shapes)
        {
            if (Under(shape, found) is not { } under)
            {
                problem = Problem(shape);
                return [];
            }
            found.Add(shape with { Shape = under, Standing = Standing.Assumed });
        }
        problem = "";
        return found.ToImmutable();
    }

    private string Problem(NamedShape shape)
    {
        var chord = CapoNames.Of(song)?.Both(shape.Name) ?? shape.Name;
        var under = capo.Fret == 0 ? "no capo" : $"the capo on fret {capo.Fret}";
        return picked.Has(shape.Name) ? $"with {under} no shape that a hand can hold has the notes that are picked on {chord}"
            : $"no hand can play {chord} with {under} in this tuning";
    }

    private Shape? Under(NamedShape shape, IReadOnlyList<NamedShape> taken)
    {
        var moved = Moved(shape.Shape);
        var fresh = VoicingSearch.Find(ChordSymbol.Read(shape.Symbol), tuning, capo, VoicingOptions.Usual with { Hand = Hand.On(tuning), Results = Considered })
            .Where(v => !taken.Any(t => t.Symbol == shape.Symbol && t.Shape.Frets.SequenceEqual(v.Shape.Frets))).ToList();
        if (picked.Has(shape.Name))
            return Kindest([.. fresh.Where(v => CommonShapes.Has(v.Shape, tuning, capo) && picked.Fits(shape.Name, v.Shape, capo))], taken) ?? moved;
        if (song.Shapes.Count(s => s.Symbol == shape.Symbol) > 1)
            return fresh.Select(v => v.Shape).MinBy(s => Distance(s, shape.Shape)) ?? moved;
        return Kindest([.. fresh.Where(v => CommonShapes.Has(v.Shape, tuning, capo))], taken) ?? fresh.FirstOrDefault()?.Shape ?? moved;
    }

    private static Shape? Kindest(List<Voicing> voicings, IReadOnlyList<NamedShape> taken) =>
        voicings.MinBy(v => v.Cost.Total + (taken.Count == 0 ? 0 : MovementShare * MovementCost.Between(taken[^1].Shape, v.Shape)))?.Shape;

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
