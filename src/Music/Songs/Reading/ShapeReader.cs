using System.Buffers;
using System.Collections.Immutable;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Songs.Reading;

/// <summary>Reads "shape G/D@low 020100 fingers 010200".</summary>
internal sealed class ShapeReader(SongSyntax syntax, DiagnosticBag bag, StandingReader standings)
{
    private static readonly SearchValues<char> FingerSigns = SearchValues.Create("x01234");

    public ImmutableArray<NamedShape> Read(Tuning? tuning, Capo capo)
    {
        var shapes = ImmutableArray.CreateBuilder<NamedShape>();
        foreach (var line in syntax.Shapes)
        {
            if (ReadLine(line, tuning, capo) is not { } shape)
                continue;
            if (shapes.Any(s => s.Name == shape.Name))
                bag.Add(DiagnosticCode.GivenTwice, line.Words()[0].Span, $"There is a shape {shape.Name} already.",
                    $"Tell them apart by a label, as in {shape.Name}@high.");
            else
                shapes.Add(shape);
        }
        return shapes.ToImmutable();
    }

    private NamedShape? ReadLine(LineSyntax line, Tuning? tuning, Capo capo)
    {
        var words = line.Words();
        if (words.Length < 2)
        {
            bag.Add(DiagnosticCode.MissingValue, line.Keyword.Span,
                "A shape has a chord's name and a fret for each string from the low side, as in shape D/F# 200232.");
            return null;
        }
        var standing = standings.ReadOne(line, Standing.Decided);
        var named = IsName(words[0].Text);
        if (!named)
            bag.Add(DiagnosticCode.BadChord, words[0].Span,
                $"'{words[0].Text}' is no chord symbol; a shape is named by its chord, with a label behind @ where one chord has two, as in G/D@low.");
        if (!Shape.TryParse(words[1].Text, out var shape))
        {
            bag.Add(DiagnosticCode.BadShape, words[1].Span,
                "A shape is one fret a string from the low side, 0 open, x muted, as in x02210, or with dots where a fret is over 9, as in x.10.12.12.11.10.");
            return null;
        }
        if (tuning is not null && shape.Frets.Length != tuning.Count)
        {
            bag.Add(DiagnosticCode.ShapeStrings, words[1].Span, $"This shape has {shape.Frets.Length} strings, the tuning {tuning.Count}.");
            return null;
        }
        if (words.Length == 2 && tuning is not null && FingeringSolver.Solve(shape, capo, Hand.On(tuning)).Faults is [var why, ..])
            bag.Add(DiagnosticCode.FingersUnheld, words[1].Span, $"No hand holds this: {why}.", "Look at the frets again, or mute a string.");
        return named ? new(words[0].Text, ReadFingers(words, shape, capo), standing) : null;
    }

    /// <summary>A chord symbol, and perhaps a label that is not empty behind "@".</summary>
    public static bool IsName(string name)
    {
        var parts = name.Split('@');
        return parts.Length <= 2 && ChordSymbol.TryRead(parts[0], out _) && parts[^1].Length > 0 && !parts[^1].AsSpan().ContainsAny("?,\"|;~");
    }

    /// <summary>The shape with its fingers; where these can't be read it is there without them, so that bars find it.</summary>
    private Shape ReadFingers(ImmutableArray<Token> words, Shape shape, Capo capo)
    {
        if (words.Length == 2)
            return shape;
        if (words.Length == 4 && words[2].Text == "fingers" && words[3].Text.Length == shape.Frets.Length
            && !words[3].Text.AsSpan().ContainsAnyExcept(FingerSigns))
            return Held(shape.WithFingers([.. words[3].Text.Select(c => c == 'x' ? 0 : c - '0')]), words[3].Span, capo);
        bag.Add(DiagnosticCode.BadFingers, words[2].Span,
            $"Behind the frets may stand 'fingers' and one sign for each of the {shape.Frets.Length} strings: 1 the index finger to 4 the little one, 0 or x "
                + "where none presses.");
        return shape;
    }

    /// <summary>The shape as it is given; fingers that no hand holds are remarked on.</summary>
    private Shape Held(Shape shape, Span fingers, Capo capo)
    {
        foreach (var fault in FingeringSolver.Contradictions(shape, capo))
            bag.Add(DiagnosticCode.FingersUnheld, new(fingers.Start + fault.StringIndex, 1), $"No hand holds this: {fault.Sentence}.",
                "Each pressed string takes one finger, 1 to 4, the others 0.");
        return shape;
    }
}
