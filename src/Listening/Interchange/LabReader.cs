using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Theory.Labels;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Listening.Interchange;

/// <summary>
/// Reads label files: one span a line, "start end label" in seconds, parted by blanks or tabs. Labels that are all chords, in Harte syntax
/// or as chord symbols, are chords. Where most are, one that isn't is a mistake; where few are, the labels are sections.
/// </summary>
public static class LabReader
{
    public static Annotation Read(string path)
    {
        var lines = File.ReadLines(path)
            .Select((text, index) => (Text: text, Number: index + 1))
            .Where(line => line.Text.Trim().Length > 0)
            .Select(line => (Span: Span(path, line.Text, line.Number), line.Number))
            .Select(line => (line.Span, line.Number, Label: ChordLabel(line.Span.Label)))
            .ToImmutableArray();
        var chords = lines.Count(l => l.Label is not null);
        if (chords == lines.Length)
            return new() { Chords = [.. lines.Select(l => l.Span with { Label = l.Label! })] };
        if (chords * 2 <= lines.Length || lines.All(l => l.Label is null || IsFormLetter(l.Span.Label)))
            return new() { Sections = [.. lines.Select(l => l.Span)] };
        var wrong = lines.First(l => l.Label is null);
        throw new AnnotationException($"{path}, line {wrong.Number}: '{wrong.Span.Label}' is no chord, as most labels of the file are; write D:min7 or Dm7, N "
            + "where no chord sounds, X for one that nobody named.");
    }

    /// <summary>A chord in Harte syntax, whichever way the file writes it; null for a label that is none.</summary>
    private static string? ChordLabel(string label) =>
        label == "X" || HarteLabel.TryRead(label, out _) ? label
        : ChordSymbol.TryRead(label, out var chord) ? HarteLabel.Write(chord)
        : null;

    /// <summary>A part of a form as A, B, C, which are chords too.</summary>
    private static bool IsFormLetter(string label) => label.Length == 1;

    private static AnnotatedSpan Span(string path, string text, int number)
    {
        var words = text.Split([' ', '\t'], 3, StringSplitOptions.RemoveEmptyEntries);
        return words.Length == 3
            && double.TryParse(words[0], NumberStyles.Float, CultureInfo.InvariantCulture, out var start)
            && double.TryParse(words[1], NumberStyles.Float, CultureInfo.InvariantCulture, out var end)
            && end >= start
            ? new(start, end, words[2].Trim())
            : throw new AnnotationException($"{path}, line {number}: expected 'start end label' with times in seconds, as in '1.25 3.50 D:min'.");
    }
}
