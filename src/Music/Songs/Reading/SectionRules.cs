namespace Harkbook.Music.Songs.Reading;

/// <summary>What must agree between the lines of a section.</summary>
internal static class SectionRules
{
    public static void Check(SectionSyntax section, DiagnosticBag bag)
    {
        var count = section.BarCount;
        if (count == 0)
            bag.Add(DiagnosticCode.EmptySection, section.Header.Keyword.Span, $"The section {section.Name} has no bars yet.");
        foreach (var part in section.Lines.Select(l => l.Voice.Part).Distinct())
            CheckCount(section, part, count, bag);
        CheckChanges(section, count, bag);
        foreach (var line in section.Lines)
            CheckStandings(line, line.Standings, count, bag);
        foreach (var block in section.Lines.Where(l => !l.Fallback.IsEmpty).DistinctBy(l => l.Fallback[0].At))
            CheckStandings(block, block.Fallback, count, bag);
    }

    private static void CheckCount(SectionSyntax section, SongPart part, int count, DiagnosticBag bag)
    {
        var has = section.NextBar(part) - 1;
        if (has == count || (has < count && section.Placed.Contains(part)))
            return;
        var last = section.Lines.Last(l => l.Voice.Part == part);
        var against = section.Like is { } like ? $"{like.Name}, which this section is like, has {count}" : $"{Reference(section)} {count}";
        bag.Add(DiagnosticCode.BarCount, last.Line.Keyword.Span, $"'{part.ToString().ToLowerInvariant()}' has {Bars(has)}, but {against}.",
            part is SongPart.Strum or SongPart.Pick
                && has < count ? $"To play these over and over, write '{part.ToString().ToLowerInvariant()} {BarLineReader.Throughout}'; else write the "
                    + "missing bars, or say 'from' and the first bar's number."
            : has < count ? "Write the missing bars (| . | where nothing happens), or say 'from' and the first bar's number."
                : "Is a bar line too many, or a bar missing in the other part?");
    }

    private static void CheckChanges(SectionSyntax section, int count, DiagnosticBag bag)
    {
        var patterns = section.Lines.Where(l => l.Repeats && count > 0).Select(l => (l.Line, l.FirstBar));
        foreach (var (line, bar) in section.Meters.Select(m =>
            (m.Line, m.FromBar)).Concat(section.Keys.Select(k => (k.Line, k.FromBar))).Concat(patterns).Where(c => c.Item2 > count))
            bag.Add(DiagnosticCode.ChangeOutside, line.Keyword.Span, $"This {line.Keyword.Text} would hold from bar {bar}, and the section has {Bars(count)}.",
                "Put it before the bars that it is for, or name their first with 'from'.");
    }

    private static string Reference(SectionSyntax section) =>
        section.WholeParts().FirstOrDefault() is { } whole ? $"'{whole.Voice.Part.ToString().ToLowerInvariant()}'" : "the section";

    private static string Bars(int count) => count == 1 ? "1 bar" : $"{count} bars";

    private static void CheckStandings(PartLine line, IEnumerable<StandingEntry> entries, int count, DiagnosticBag bag)
    {
        var whole = 0;
        var end = line.Repeats ? count + 1 : line.EndBar;
        foreach (var entry in entries)
        {
            if (entry.Bar is null && ++whole > 1)
                bag.Add(DiagnosticCode.StandingNotKept, entry.At, "The line has a standing already; this one needs a bar, as in ~bar 2 decided.");
            if (entry.Bar is { } bar && (bar < line.FirstBar || bar >= end))
                bag.Add(DiagnosticCode.StandingNowhere, entry.At,
                    $"The line holds bars {line.FirstBar} to {end - 1} of its section, and this standing is for bar {bar}.");
        }
    }
}
