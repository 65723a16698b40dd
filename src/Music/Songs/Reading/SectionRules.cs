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
            CheckStandings(line, line.Standings, bag);
        foreach (var block in section.Lines.Where(l => !l.Fallback.IsEmpty).DistinctBy(l => l.Fallback[0].At))
            CheckStandings(block, block.Fallback, bag);
    }

    private static void CheckCount(SectionSyntax section, SongPart part, int count, DiagnosticBag bag)
    {
        var has = section.NextBar(part) - 1;
        if (has == count || (has < count && section.Placed.Contains(part)))
            return;
        var last = section.Lines.Last(l => l.Voice.Part == part);
        var against = section.Like is { } like ? $"{like.Name}, which this section is like, has {count}" : $"{Reference(section)} {count}";
        bag.Add(DiagnosticCode.BarCount, last.Line.Keyword.Span, $"'{part.ToString().ToLowerInvariant()}' has {Bars(has)}, but {against}.",
            has < count ? "Write the missing bars (| . | where nothing happens), or say 'from' and the first bar's number." : "Is a bar line too many, or a bar missing in the other part?");
    }

    private static void CheckChanges(SectionSyntax section, int count, DiagnosticBag bag)
    {
        foreach (var (line, bar) in section.Meters.Select(m => (m.Line, m.FromBar)).Concat(section.Keys.Select(k => (k.Line, k.FromBar))).Where(c => c.FromBar > count))
            bag.Add(DiagnosticCode.ChangeOutside, line.Keyword.Span, $"This {line.Keyword.Text} would hold from bar {bar}, and the section has {Bars(count)}.", "Put it before the bars that it is for, or name their first with 'from'.");
    }

    private static string Reference(SectionSyntax section) =>
        section.WholeParts().FirstOrDefault() is { } whole ? $"'{whole.Voice.Part.ToString().ToLowerInvariant()}'" : "the section";

    private static string Bars(int count) => count == 1 ? "1 bar" : $"{count} bars";

    private static void CheckStandings(PartLine line, IEnumerable<StandingEntry> entries, DiagnosticBag bag)
    {
        var whole = 0;
        foreach (var entry in entries)
        {
            if (entry.Bar is null && ++whole > 1)
                bag.Add(DiagnosticCode.StandingNotKept, entry.At, "The line has a standing already; this one needs a bar, as in ~bar 2 decided.");
            if (entry.Bar is { } bar && (bar < line.FirstBar || bar >= line.EndBar))
                bag.Add(DiagnosticCode.StandingNowhere, entry.At, $"The line holds bars {line.FirstBar} to {line.EndBar - 1} of its section, and this standing is for bar {bar}.");
        }
    }
}
