using System.Collections.Immutable;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Songs.Reading;

/// <summary>
/// Holds each shape against the chord that it is named for. Shapes that would be right if the file's names were the other ones, the hand's
/// or what sounds, are one mistake and told of once.
/// </summary>
/// <param name="key">Spells the other names; as the file writes it.</param>
internal sealed class ShapeCheck(SongSyntax syntax, DiagnosticBag bag, Tuning tuning, Capo capo, Key key)
{
    private readonly bool isHand = syntax.HandNames is not null;

    public void Check(ImmutableArray<NamedShape> shapes)
    {
        var wrong = shapes.Where(s => Against(s, isHand ? Capo.None : capo) is not null).ToList();
        var swapped = capo.Fret == 0 || capo.IsPartial ? [] : wrong.Where(s => Against(s, isHand ? capo : Capo.None) is null).ToList();
        foreach (var shape in wrong.Except(swapped))
            bag.Add(DiagnosticCode.ShapeContradicts, Place(shape), Contradiction(shape));
        if (swapped.Count > 0)
            AddSwapped(swapped, all: shapes.Length == wrong.Count);
    }

    private ShapeContradiction? Against(NamedShape shape, Capo under) => ShapeContradiction.Of(shape.Shape, tuning, under, ChordSymbol.Read(shape.Symbol));

    private string Contradiction(NamedShape shape)
    {
        var against = Against(shape, isHand ? Capo.None : capo)!;
        return $"{shape.Name} as {shape.Shape}{(isHand && capo.Fret > 0 ? "" : WithCapo)} {(isHand && capo.Fret > 0 ? "is the hand's" : "sounds")} "
            + $"{against.Sounds}: {against.Reason}.";
    }

    private void AddSwapped(List<NamedShape> shapes, bool all)
    {
        var (first, chord) = (shapes[0], ChordSymbol.Read(shapes[0].Symbol));
        var others = shapes.Count == 1 ? "" : shapes.Count == 2 ? ", and 1 more shape is named so" : $", and {shapes.Count - 1} more shapes are named so";
        if (isHand)
        {
            var hand = chord.Transposed(-CapoNames.RaiseTo(key, capo));
            bag.Add(DiagnosticCode.ShapeContradicts, Place(first),
                $"{first.Name} as {first.Shape} is the hand's {hand}: {first.Symbol} is what sounds{WithCapo}, and the file says that its names are the "
                    + $"hand's{others}.",
                $"Write {hand}{(all ? ", or names sound" : "")}.");
            return;
        }
        var sounds = chord.Transposed(CapoNames.RaiseFrom(key, capo));
        bag.Add(DiagnosticCode.ShapeContradicts, Place(first),
            $"{first.Name} as {first.Shape}{WithCapo} sounds {sounds}: {first.Symbol} is the hand's name{others}.",
            $"Write what sounds, {sounds}{(all ? ", or add the line names hand if all names of the file, its key too, are the hand's" : "")}.");
    }

    private string WithCapo => capo.Fret == 0 ? "" : $" with capo {capo.Fret}";

    private Span Place(NamedShape shape)
    {
        var words = syntax.Shapes.Select(l => l.Words()).First(w => w is [var name, _, ..] && name.Text == shape.Name);
        return Span.FromTo(words[0].Start, words[1].Span.End);
    }
}
