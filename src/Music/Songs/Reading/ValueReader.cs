using System.Collections.Immutable;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Songs.Reading;

/// <summary>Reads what stands in a cell, by part; null (with a diagnostic) when it can't be read.</summary>
internal sealed class ValueReader(DiagnosticBag bag, ImmutableArray<NamedShape> shapes)
{
    private readonly Dictionary<string, Shape> shapeOf = shapes.ToDictionary(s => s.Name, s => s.Shape);
    private readonly ILookup<string, NamedShape> shapesOf = shapes.ToLookup(s => s.Symbol);
    private readonly HashSet<string> said = [];

    public ChordUse? Chord(Leaf leaf)
    {
        var name = leaf.Value.Text;
        var at = name.IndexOf('@');
        var symbol = at < 0 ? name : name[..at];
        if (!ChordSymbol.TryRead(symbol, out var chord) || (at >= 0 && !ShapeReader.IsName(name)))
        {
            bag.Add(DiagnosticCode.BadChord, leaf.Value.Span,
                $"'{name}' is no chord symbol; write a root and a kind, as in F#m7, Dsus4 or G/B, or N.C. where no chord sounds.",
                Divided(name) ?? NearestWord.Ask(ChordSymbol.Respelled(symbol)) ?? NearestWord.Suggest(name, shapeOf.Keys.Append("N.C.")));
            return null;
        }
        if (shapeOf.TryGetValue(name, out var shape))
            return new(chord, name, shape);
        if (at >= 0)
        {
            bag.Add(DiagnosticCode.UnknownShape, leaf.Value.Span, $"No shape is called '{name}'.",
                NearestWord.Suggest(name, shapeOf.Keys) ?? $"Add a line 'shape {name} …' before the first section.");
            return null;
        }
        return new(chord, name, OnlyShape(symbol, leaf));
    }

    /// <summary>A chord without a label has the one labelled shape of its symbol; where several compete, that is said once.</summary>
    private Shape? OnlyShape(string symbol, Leaf leaf)
    {
        var labelled = shapesOf[symbol].DistinctBy(s => s.Shape).ToList();
        if (labelled.Count > 1 && said.Add(symbol))
            bag.Add(DiagnosticCode.WhichShape, leaf.Value.Span,
                $"{symbol} has the shapes {string.Join(", ", labelled.Select(s => s.Name))}, and this bar doesn't say which.",
                $"Write the one that is meant, as in {labelled[0].Name}.");
        return labelled.Count == 1 ? labelled[0].Shape : null;
    }

    public Stroke? Stroke(Leaf leaf)
    {
        Stroke? stroke = leaf.Value.Text switch
        {
            "d" => Songs.Stroke.Down,
            "u" => Songs.Stroke.Up,
            "x" => Songs.Stroke.Muted,
            _ => null,
        };
        if (stroke is null)
            bag.Add(DiagnosticCode.BadStroke, leaf.Value.Span,
                $"'{leaf.Value.Text}' is no stroke: d goes down, u up, x is muted; a cell may run them together, as in du.",
                leaf.Value.Text is "D" or "U" or "X" ? $"Write it small: {leaf.Value.Text.ToLowerInvariant()}." : null);
        return stroke;
    }

    public TuneNote? Tune(Leaf leaf)
    {
        var text = leaf.Value.Text;
        if (TuneNote.TryParse(text, out var note))
            return note;
        bag.Add(DiagnosticCode.BadTuneNote, leaf.Value.Span,
            $"'{text}' is no note of a tune: a pitch with its octave, C-1 to G9, as in F#4 (C4 is middle C). In front: s glided to from the note before, / or "
                + "\\ from somewhere below or above. Behind: bB4 bent up until it sounds as B4, b+1/2 by a quarter tone, r back again, ~ vibrato, / or \\ "
                + "glided off.",
            Octave(text) ?? Divided(text));
        return null;
    }

    private static string? Octave(string text) =>
        PitchName.TryParse(text, out _) ? $"Say its octave, as in {text}4."
        : text is [>= 'a' and <= 'g', ..] && TuneNote.TryParse(char.ToUpperInvariant(text[0]) + text[1..], out var meant) ? $"Write the letter large: {meant}."
        : null;

    public ImmutableArray<HarpNote>? Harp(Leaf leaf)
    {
        var notes = ImmutableArray.CreateBuilder<HarpNote>();
        var at = 0;
        foreach (var text in leaf.Value.Text.Split('&'))
        {
            var token = leaf.Value.Part(at, text.Length);
            at += text.Length + 1;
            if (!HarpNote.TryParse(text, out var note))
                bag.Add(DiagnosticCode.BadHarpNote, token.Span,
                    $"'{text}' is no note on a harp: +4 is blow 4, -4 draw 4, -3' draw 3 bent a semitone ('' two), +6o blow 6 over-bent, +5< blow 5 with the "
                        + "slide in; & joins notes of one breath.", Divided(text));
            else if (notes.Count > 0 && notes[0].Breath != note.Breath)
                bag.Add(DiagnosticCode.BadHarpNote, token.Span, "One breath goes one way: notes joined by & are all blown or all drawn.");
            else
                notes.Add(note);
        }
        return notes.Count == 0 ? null : notes.ToImmutable();
    }

    /// <param name="shapeFret">What the bar's shape has on the string, for a cell that leaves it to the shape.</param>
    public PickedNote? Picked(Leaf leaf, int stringIndex, Func<int?> shapeFret)
    {
        var (note, problem) = PickedReader.Read(leaf.Value.Text, stringIndex, shapeFret);
        if (problem is not null)
            bag.Add(DiagnosticCode.BadPickedNote, leaf.Value.Span, problem, Divided(leaf.Value.Text));
        return note;
    }

    /// <summary>Pieces of a cell that were written without the comma between them.</summary>
    private static string? Divided(string text) =>
        text.AsSpan().Trim("._") is { Length: > 0 } value && value.Length < text.Length
            ? $"A comma splits a cell: write {(text.StartsWith(value[0]) ? $"{value},." : $".,{value}")}." : null;
}
