namespace Harkbook.Music.Songs.Reading;

/// <summary>Tells, once, of sections that are sung to the words of a section with another number, as Verse 2 to those of Verse 1.</summary>
internal static class TakenWords
{
    private static readonly Voice Sung = new(SongPart.Sung);

    public static void Check(SongSyntax syntax, DiagnosticBag bag)
    {
        var taking = syntax.Sections.Where(TakesWords).ToList();
        if (taking.Count == 0)
            return;
        var one = taking.Count == 1;
        bag.Add(DiagnosticCode.WordsTakenOver, taking[0].Header.Keyword.Span,
            $"{Listed(taking.Select(s => s.Name))} {(one ? "takes" : "take")} over the words of {Listed(taking.Select(s => Source(s).Name))}.",
            one ? "Write its own sung lines, or sung | _ | with a _ for each bar." : "Write their own sung lines, or sung | _ | with a _ for each bar.");
    }

    private static bool TakesWords(SectionSyntax section) =>
        section.Like is not null && !GivesWords(section) && IsAnother(section.Name, Source(section).Name)
        && section.BarsOf(Sung).Values.Any(b => b.Bar.Leaves.Any(IsWord));

    /// <summary>The section whose own lines are sung.</summary>
    private static SectionSyntax Source(SectionSyntax section) => section.Like is { } like && !GivesWords(section) ? Source(like) : section;

    private static bool GivesWords(SectionSyntax section) => section.Lines.Any(l => l.Voice == Sung);

    private static bool IsWord(Leaf leaf) => !leaf.GoesOn && !leaf.Silences && leaf.Value.Text != "x";

    /// <summary>A chorus repeats its words, whatever its number.</summary>
    private static bool IsAnother(string name, string other) =>
        name != other && Stem(name) == Stem(other) && !Stem(name).StartsWith("CHORUS", StringComparison.Ordinal)
            && !Stem(name).StartsWith("REFRAIN", StringComparison.Ordinal);

    private static string Stem(string name) => name.TrimEnd(' ', '0', '1', '2', '3', '4', '5', '6', '7', '8', '9').ToUpperInvariant();

    private static string Listed(IEnumerable<string> names) =>
        names.Distinct().ToList() is [.. var most, var last] && most.Count > 0 ? $"{string.Join(", ", most)} and {last}" : names.First();
}
