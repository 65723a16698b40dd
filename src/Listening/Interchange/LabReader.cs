using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Interchange;

/// <summary>
/// Reads label files: one span a line, "start end label" in seconds, parted by blanks or tabs.
/// Labels that are all chords in Harte syntax are chords; anything else is sections.
/// </summary>
public static class LabReader
{
    public static Annotation Read(string path)
    {
        var spans = File.ReadLines(path)
            .Select((text, index) => (text, number: index + 1))
            .Where(line => line.text.Trim().Length > 0)
            .Select(line => Span(path, line.text, line.number))
            .ToImmutableArray();
        return spans.All(s => HarteLabel.TryRead(s.Label, out _) || s.Label == "X")
            ? new Annotation { Chords = spans }
            : new Annotation { Sections = spans };
    }

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
