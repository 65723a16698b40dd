using Harkbook.Music.Instruments.Shapes;

namespace Harkbook.Music.Songs.Reading;

/// <summary>Finds the facts and shapes, and lines that stand where nothing can be made of them.</summary>
internal sealed class OutlineReader(SongSyntax syntax, DiagnosticBag bag)
{
    private bool inSection;
    private PatternLines? pattern;

    public void Read()
    {
        foreach (var line in syntax.Lines.Where(l => !l.IsBlank))
            ReadLine(line);
    }

    private void ReadLine(LineSyntax line)
    {
        var word = line.Keyword.Text;
        if (pattern is not null && SongSyntax.IsString(line))
        {
            pattern.Strings.Add(line);
            return;
        }
        pattern = null;
        if (word == "section")
            inSection = true;
        else if (word == SongSyntax.Pattern)
            AddPattern(line);
        else if (word == "shape")
            AddShape(line);
        else if (SongSyntax.IsFact(word, out var fact)
            && (fact is not (SongFact.Meter or SongFact.Key or SongFact.Tune or SongFact.Harp) || (!inSection && !line.BodyText.StartsWith('|'))))
            AddFact(line, fact);
        else if (!inSection)
            Misplaced(line, word);
    }

    private void AddShape(LineSyntax line)
    {
        syntax.Shapes.Add(line);
        if (inSection)
            bag.Add(DiagnosticCode.OutOfOrder, line.Keyword.Span, "Shapes stand before the first section; this one is used all the same.");
    }

    private void AddPattern(LineSyntax line)
    {
        var lines = new PatternLines(line, []);
        syntax.PatternLines.Add(lines);
        pattern = line.BodyText.Contains('|') ? null : lines;
        if (inSection)
            bag.Add(DiagnosticCode.OutOfOrder, line.Keyword.Span, "Patterns stand before the first section; this one is used all the same.");
    }

    private void AddFact(LineSyntax line, SongFact fact)
    {
        if (!syntax.Facts.TryAdd(fact, line))
        {
            var (first, _) = syntax.Source.Locate(syntax.Facts[fact].Whole.Start);
            bag.Add(DiagnosticCode.GivenTwice, line.Keyword.Span, $"'{line.Keyword.Text}' is given twice; the first is on line {first}.", "Keep one of them.");
        }
        else if (inSection)
        {
            bag.Add(DiagnosticCode.OutOfOrder, line.Keyword.Span, "Facts stand before the first section; this one is used all the same.");
        }
    }

    private void Misplaced(LineSyntax line, string word)
    {
        if (SongSyntax.IsPart(word, out _) || word == "anchors")
            bag.Add(DiagnosticCode.OutsideSection, line.Keyword.Span, $"'{word}' belongs to a section, and none has started.",
                "Put a line 'section NAME' before it.");
        else
            Unknown(bag, line);
    }

    public static void Unknown(DiagnosticBag bag, LineSyntax line)
    {
        var word = line.Keyword.Text;
        if (line.BodyText.StartsWith('|') && word.Length == 0)
        {
            bag.Add(DiagnosticCode.UnknownWord, line.Body, "These bars don't say what they are: every line of bars starts with its part's word.",
                "Write it before them, as in chords | C . G . | Am |, also where a part goes on in another line.");
            return;
        }
        var at = word.Length > 0 ? line.Keyword.Span : line.Standings[0];
        bag.Add(DiagnosticCode.UnknownWord, at, $"'{Shown(word)}' is none of the words that a line starts with.",
            (word == "chord" && line.Words() is [_, var frets, ..] && Shape.TryParse(frets.Text, out _) ? "Did you mean 'shape'?" : null)
                ?? OtherWords.Suggest(line)
                ?? NearestWord.Suggest(word.TrimEnd(':', '='), SongSyntax.AllWords)
                ?? (bag.Has(DiagnosticCode.UnknownWord) ? null : $"They are {string.Join(", ", SongSyntax.AllWords.Distinct())}; a comment starts with ;."));
    }

    private static string Shown(string word) => word.Length > 30 ? word[..30] + "…" : word;
}
