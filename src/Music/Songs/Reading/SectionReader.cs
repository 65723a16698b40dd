using System.Collections.Immutable;
using Harkbook.Music.Instruments;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs.Reading;

/// <summary>Reads the lines from the first "section" on into sections.</summary>
internal sealed class SectionReader(SongSyntax syntax, DiagnosticBag bag, StandingReader standings, Tuning? tuning)
{
    /// <summary>How many sections may stand in a row of "like", each on the one before.</summary>
    private const int LongestChain = 64;

    private readonly BarLineReader bars = new(bag);
    private PickBlock? pick;

    private SectionSyntax Current => syntax.Sections[^1];

    public void Read()
    {
        foreach (var line in syntax.Lines.Where(l => !l.IsBlank).SkipWhile(l => l.Keyword.Text != "section"))
            ReadLine(line);
        EndPick();
        foreach (var section in syntax.Sections)
            SectionRules.Check(section, bag);
    }

    private void ReadLine(LineSyntax line)
    {
        var word = line.Keyword.Text;
        if (pick is not null && !SongSyntax.AllWords.Contains(word) && line.BodyText.Contains('|'))
        {
            ReadString(line, pick);
            Current.LastLine = line;
            return;
        }
        EndPick();
        if (word == "section")
            Start(line);
        else if (word == "anchors")
            Current.AnchorLines.Add(line);
        else if (word == "meter")
            ReadMeter(line);
        else if (word == "key")
            ReadKey(line);
        else if (SongSyntax.IsPart(word, out var part))
            ReadPart(line, part);
        else if (Pitch.TryParse(word, out _) && line.BodyText.Contains('|'))
            bag.Add(DiagnosticCode.OutsideSection, line.Keyword.Span, "A string's line stands in a pick block.", "Put a line 'pick' before it.");
        else if (word != "shape" && !SongSyntax.FactWords.Contains(word))
            OutlineReader.Unknown(bag, line);
        if (SongSyntax.AllWords.Contains(word) && word != "section")
            Current.LastLine = line;
    }

    private void Start(LineSyntax line)
    {
        var body = line.BodyText;
        var standing = standings.ReadOne(line, Standing.Decided);
        if (body.Length == 0)
            bag.Add(DiagnosticCode.MissingValue, line.Keyword.Span, "A section has a name, as in section Verse 1.");
        var at = Quoted.Is(body) ? -1 : body.LastIndexOf(" like ", StringComparison.Ordinal);
        var name = Quoted.Unwrap(at < 0 ? body : body[..at].TrimEnd());
        syntax.Sections.Add(new(line, name, at < 0 ? null : FindLike(line, at + 6), standing));
    }

    private SectionSyntax? FindLike(LineSyntax line, int at)
    {
        var raw = line.BodyText[at..];
        var name = Quoted.Unwrap(raw.Trim());
        var span = Span.FromTo(line.Body.End - raw.TrimStart().Length, line.Body.End);
        var found = syntax.Sections.LastOrDefault(s => s.Name == name);
        if (found is null)
            bag.Add(DiagnosticCode.UnknownSection, span, $"No section before this one is called '{name}'.",
                NearestWord.Suggest(name, syntax.Sections.Select(s => s.Name)) ?? "Put the whole name in double quotes if 'like' is part of it.");
        else if (Chain(found) >= LongestChain)
            bag.Add(DiagnosticCode.UnknownSection, span, $"More than {LongestChain} sections stand on one another here.", "Write 'like' with the first of them.");
        else
            return found;
        return null;
    }

    private static int Chain(SectionSyntax section)
    {
        var length = 1;
        for (var like = section.Like; like is not null; like = like.Like)
            length++;
        return length;
    }

    private void ReadMeter(LineSyntax line)
    {
        standings.Refuse(line, "A change of meter");
        var words = line.Words();
        var from = Current.NextBar();
        var placed = words.Length == 3 && words[1].Text == "from" && int.TryParse(words[2].Text, out from) && from is >= 1 and <= 9999;
        if (words.Length > 0 && Meter.TryParse(words[0].Text, out var meter) && (words.Length == 1 || placed))
            Current.Meters.Add((meter, from, line));
        else
            bag.Add(DiagnosticCode.BadMeter, line.Body.Length > 0 ? line.Body : line.Keyword.Span,
                "In a section, a meter holds from the bar after the last one written so far, or from a bar that it names, as in meter 2/4 from 7.");
    }

    private void ReadKey(LineSyntax line)
    {
        if (KeyLine.Read(line, Current.NextBar(), bag, standings) is { } key)
            Current.Keys.Add(key);
    }

    private void ReadPart(LineSyntax line, SongPart part)
    {
        if (part == SongPart.Pick)
        {
            StartPick(line);
            return;
        }
        var (from, read) = bars.Read(line, part);
        Add(line, new(part), Place(line, part, from), read, standings.ReadAll(line), []);
    }

    private int Place(LineSyntax line, SongPart part, int? from)
    {
        var next = Current.NextBar(part);
        if (from is null)
            return next;
        Current.Placed.Add(part);
        if (from >= next)
            return from.Value;
        bag.Add(DiagnosticCode.BarTwice, line.Keyword.Span, $"Bar {from} of {line.Keyword.Text} is given already; the next one is {next}.");
        return next;
    }

    private void StartPick(LineSyntax line)
    {
        var words = line.Words();
        var from = (int?)null;
        if (words.Length == 2 && words[0].Text == "from" && int.TryParse(words[1].Text, out var bar) && bar is >= 1 and <= 9999)
            from = bar;
        else if (words.Length > 0)
            bag.Add(DiagnosticCode.BadFrom, line.Body, "Behind 'pick' may stand 'from' and a bar's number; the strings follow, one a line, as in D4 | 0 . 2 . |.");
        pick = new(line, Place(line, SongPart.Pick, from), standings.ReadAll(line), [], []);
    }

    private void ReadString(LineSyntax line, PickBlock block)
    {
        var (from, read) = bars.Read(line, SongPart.Pick);
        if (from is not null)
            bag.Add(DiagnosticCode.BadFrom, line.Keyword.Span, "'from' stands behind 'pick' and holds for all its strings.");
        if (tuning is null)
            return;
        var index = StringLabels.Take(line.Keyword.Text, tuning, block.Taken);
        if (index < 0)
            RefuseString(line, tuning);
        else
            block.Lines.Add(new(line, new(SongPart.Pick, index), block.FirstBar, read, standings.ReadAll(line), block.Standings));
    }

    private void RefuseString(LineSyntax line, Tuning tuning)
    {
        var label = line.Keyword.Text;
        var known = Pitch.TryParse(label, out var pitch);
        var highToLow = string.Join(" ", tuning.Strings.Reverse());
        if (known && tuning.Strings.Any(s => s.Midi == pitch.Midi))
            bag.Add(DiagnosticCode.StringTwice, line.Keyword.Span, $"The string {label} is given twice in this block.");
        else
            bag.Add(DiagnosticCode.UnknownString, line.Keyword.Span, $"A string is named by its open pitch without capo; from high to low they are {highToLow}.",
                known ? $"The nearest is {tuning.Strings.MinBy(s => Math.Abs(s.Midi - pitch.Midi))}." : NearestWord.Suggest(label, tuning.Strings.Select(s => s.ToString())));
    }

    private void EndPick()
    {
        if (pick is not { } block)
            return;
        pick = null;
        if (block.Lines.Count == 0)
            bag.Add(DiagnosticCode.EmptyPick, block.Header.Keyword.Span, "No string follows.", "Write one a line, high to low, as in D4 | 0 . 2 . |.");
        var most = block.Lines.Select(l => l.Bars.Length).DefaultIfEmpty(0).Max();
        foreach (var line in block.Lines.Where(l => l.Bars.Length != most))
            bag.Add(DiagnosticCode.BarCount, line.Line.Keyword.Span, $"String {line.Line.Keyword.Text} has {line.Bars.Length} bars, another string of this block {most}.");
        foreach (var line in block.Lines)
            Add(line.Line, line.Voice, line.FirstBar, line.Bars, line.Standings, line.Fallback);
    }

    private void Add(LineSyntax line, Voice voice, int first, ImmutableArray<BarSyntax> read, ImmutableArray<StandingEntry> own, ImmutableArray<StandingEntry> block) =>
        Current.Lines.Add(new(line, voice, first, read, own, block));

    private sealed record PickBlock(LineSyntax Header, int FirstBar, ImmutableArray<StandingEntry> Standings, List<PartLine> Lines, HashSet<int> Taken);
}
