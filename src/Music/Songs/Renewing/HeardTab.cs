using Harkbook.Music.Songs.Reading;

namespace Harkbook.Music.Songs.Renewing;

/// <summary>
/// The blocks of tab that still stand as heard. Their strings are those of the tuning that was heard then: under another tuning they give way to the
/// tab that is heard now where a section has as many bars and blocks now, and else go.
/// </summary>
internal static class HeardTab
{
    private sealed record Block(SectionSyntax Section, int Start, int End, bool IsHeard);

    /// <returns>The document, and the names of the sections whose tab went.</returns>
    public static (SongDocument Document, string[] Gone) Renew(SongDocument document, SongDocument fresh)
    {
        var text = document.Text;
        var gone = new HashSet<string>();
        var newLine = document.Syntax.Source.NewLine;
        foreach (var (section, index) in document.Syntax.Sections.Select((s, i) => (s, i)).Reverse())
        {
            var (own, theirs) = (Blocks(document, section), Theirs(fresh, section, index));
            var matches = own.All(b => b.IsHeard) && own.Count == theirs.Count;
            foreach (var (block, i) in own.Select((b, i) => (b, i)).Where(b => b.b.IsHeard).Reverse())
            {
                var now = matches ? fresh.Text[theirs[i].Start..theirs[i].End].ReplaceLineEndings(newLine) : "";
                text = text[..block.Start] + now + text[block.End..];
                if (!matches)
                    gone.Add(section.Name);
            }
        }
        return (SongText.Parse(text, document.FileName), [.. gone.Reverse()]);
    }

    private static List<Block> Theirs(SongDocument fresh, SectionSyntax section, int index) =>
        index < fresh.Syntax.Sections.Count && fresh.Syntax.Sections[index] is { } other && other.BarCount == section.BarCount ? Blocks(fresh, other) : [];

    private static List<Block> Blocks(SongDocument document, SectionSyntax section)
    {
        var lines = document.Syntax.Lines.ToList();
        var strings = section.Lines.Where(l => l.Voice.Part == SongPart.Pick).Select(l => l.Line).ToHashSet();
        var blocks = new List<Block>();
        for (var first = lines.IndexOf(section.Header) + 1; first < lines.Count && lines[first].Keyword.Text != "section"; first++)
        {
            if (lines[first].Keyword.Text != "pick")
                continue;
            var end = first + 1;
            while (end < lines.Count && strings.Contains(lines[end]))
                end++;
            var to = end < lines.Count ? lines[end].Whole.Start : document.Text.Length;
            blocks.Add(new(section, lines[first].Whole.Start, to, end > first + 1 && IsHeard(document, [.. lines[first..end]])));
        }
        return blocks;
    }

    /// <summary>Said to be heard at its head, or without a note, and nothing else said of it.</summary>
    private static bool IsHeard(SongDocument document, LineSyntax[] lines) =>
        (new StandingReader(new(document.Syntax.Source, "")).ReadOne(lines[0], Standing.Decided).Kind == StandingKind.Heard
            || lines.Skip(1).All(l => l.BodyText.All(c => c is ' ' or '.' or ',' or '|' or '_')))
        && lines.Skip(1).All(l => l.Standings.IsEmpty)
        && lines.All(l => l.CodeEnd >= l.Whole.End || string.IsNullOrWhiteSpace(l.Text[l.CodeEnd..l.Whole.End]));
}
