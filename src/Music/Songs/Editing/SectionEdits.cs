using Harkbook.Music.Songs.Reading;
using Harkbook.Music.Songs.Writing;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Editing;

/// <summary>Edits of sections: their anchors, the standings of their parts, new ones.</summary>
internal sealed class SectionEdits(SongSyntax syntax)
{
    private readonly LineEdits lines = new(syntax);

    public TextEdit Add(string name, string? like, int bars)
    {
        var head = $"{"section",-10} {Head(name, like)}";
        return like is null ? lines.AtEnd(head, $"{"chords",-10} |{string.Concat(Enumerable.Repeat(" . |", bars))}") : lines.AtEnd(head);
    }

    /// <summary>Names a section anew, decided, and follows it where later sections are like it.</summary>
    public IEnumerable<TextEdit> SetName(int index, string name)
    {
        var section = Section(index);
        if (syntax.Sections.Skip(index + 1).Any(s => s.Like is { } like && like.Name == name && syntax.Sections.IndexOf(like) < index))
            throw new ArgumentException($"An earlier section is called {name}, and a later one is like it; give another name.", nameof(name));
        return
        [
            new(section.Header.Body, Head(name, section.Like?.Name)),
            .. lines.SetStanding(section.Header, Standing.Decided),
            .. syntax.Sections.Where(s => s.Like == section).Select(s => new TextEdit(s.Header.Body, Head(s.Name, name))),
        ];
    }

    public IEnumerable<TextEdit> SetPartStanding(int section, SongPart part, Standing standing)
    {
        var own = Section(section).Lines.Where(l => l.Voice.Part == part).Select(l => l.Line).Distinct().ToList();
        return own.Count > 0
            ? own.SelectMany(l => lines.SetStanding(l, standing))
            : throw new ArgumentException($"The section {Section(section).Name} has no line of {part.ToString().ToLowerInvariant()} of its own.", nameof(part));
    }

    public IEnumerable<TextEdit> SetStanding(int section, Standing standing) => lines.SetStanding(Section(section).Header, standing);

    public IEnumerable<TextEdit> SetAnchor(int section, int bar, Seconds at, Standing standing)
    {
        var anchors = Anchors(Section(section));
        var put = $"{bar} = {TimeText.Write(at)}";
        if (anchors.FirstOrDefault(a => IsStart(a.Anchor, bar)) is { Line: not null } there)
            return lines.SetStandingAt(there.Line, bar, null, standing).Append(new(WithMark(there), TimeText.Write(at)));
        var line = anchors.LastOrDefault(a => a.Anchor.Anchor.Bar < bar);
        if (line.Line is not null)
            return lines.SetStandingAt(line.Line, bar, null, standing).Append(TextEdit.Insert(WithMark(line).End, "   " + put));
        if (anchors.Count > 0)
            return lines.SetStandingAt(anchors[0].Line, bar, null, standing).Append(TextEdit.Insert(anchors[0].Anchor.BarAt.Start, put + "   "));
        var tail = standing == Standing.Decided ? "" : "  " + StandingText.Write(standing);
        return [lines.After(Section(section).Header, $"{"anchors",-10} {put}{tail}")];
    }

    public IEnumerable<TextEdit> RemoveAnchor(int section, int bar, Beats beat = default)
    {
        var anchors = Anchors(Section(section));
        var there = anchors.FirstOrDefault(a => a.Anchor.Anchor.Bar == bar && a.Anchor.Anchor.Beat == beat);
        if (there.Line is null)
            throw new ArgumentException($"Bar {bar} of section {Section(section).Name} has no anchor there.", nameof(bar));
        if (anchors.Count(a => a.Line == there.Line) == 1)
            return [lines.WithoutLine(there.Line)];
        var start = there.Anchor.BarAt.Start;
        while (char.IsWhiteSpace(there.Line.Text[start - 1]) && start > there.Line.Body.Start)
            start--;
        var end = WithMark(there).End;
        while (start == there.Line.Body.Start && char.IsWhiteSpace(there.Line.Text[end]))
            end++;
        return [new(Span.FromTo(start, end), "")];
    }

    /// <summary>Takes whatever the anchors' lines say of their standing away.</summary>
    public IEnumerable<TextEdit> DecideAnchors(int section) =>
        Section(section).AnchorLines.SelectMany(line => lines.Entries(line).Select(e => lines.Remove(line, e.At)));

    public IEnumerable<TextEdit> SetKey(int section, int bar, Key key, Standing? standing)
    {
        var there = Section(section).Keys.LastOrDefault(k => k.FromBar == bar);
        if (there is not null)
            return [new(KeyLine.KeyAt(there.Line), key.ToString()), .. standing is null ? [] : lines.SetStanding(there.Line, standing)];
        if (bar < 1 || bar > Section(section).BarCount)
            throw new ArgumentOutOfRangeException(nameof(bar), bar, $"The section {Section(section).Name} has bars 1 to {Section(section).BarCount}.");
        var tail = standing is null || standing == Standing.Decided ? "" : "  " + StandingText.Write(standing);
        return [lines.After(Section(section).AnchorLines.LastOrDefault() ?? Section(section).Header, $"{"key",-10} {key} from {bar}{tail}")];
    }

    public IEnumerable<TextEdit> RemoveKey(int section, int bar)
    {
        var there = Section(section).Keys.Where(k => k.FromBar == bar).Select(k => lines.WithoutLine(k.Line)).ToList();
        return there.Count > 0 ? there
            : throw new ArgumentException($"The section {Section(section).Name} has no line that changes the key at bar {bar}.", nameof(bar));
    }

    private static bool IsStart(AnchorSyntax anchor, int bar) => anchor.Anchor.Bar == bar && anchor.Anchor.Beat == Beats.Zero;

    private List<(LineSyntax Line, AnchorSyntax Anchor)> Anchors(SectionSyntax section)
    {
        var bag = new DiagnosticBag(syntax.Source, "");
        var reader = new AnchorReader(bag, new(bag), null);
        return [.. section.AnchorLines.SelectMany(line => reader.ReadLine(line).Select(anchor => (line, anchor)))];
    }

    /// <summary>The anchor's time with the "?62" behind it.</summary>
    private static Span WithMark((LineSyntax Line, AnchorSyntax Anchor) anchor)
    {
        var end = anchor.Anchor.TimeAt.End;
        if (end < anchor.Line.Body.End && anchor.Line.Text[end] == '?')
            end++;
        while (end < anchor.Line.Body.End && char.IsAsciiDigit(anchor.Line.Text[end]))
            end++;
        return Span.FromTo(anchor.Anchor.TimeAt.Start, end);
    }

    private SectionSyntax Section(int index) =>
        index >= 0 && index < syntax.Sections.Count
            ? syntax.Sections[index]
            : throw new ArgumentOutOfRangeException(nameof(index), index, $"The song has {syntax.Sections.Count} sections, counted from 0.");

    public static string Head(string name, string? like) => $"{Name(name)}{(like is null ? "" : $" like {Name(like)}")}";

    private static string Name(string name) => PlainText.Write(name, always: name.Contains(" like "));
}
