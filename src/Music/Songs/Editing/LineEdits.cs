using Harkbook.Music.Songs.Reading;
using Harkbook.Music.Songs.Writing;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Editing;

/// <summary>Edits of whole lines and of the standings at their ends.</summary>
internal sealed class LineEdits(SongSyntax syntax)
{
    private readonly string newLine = syntax.Source.NewLine;

    /// <summary>A new line under another, or at the top of the file.</summary>
    public TextEdit After(LineSyntax? line, string put) =>
        line is null ? TextEdit.Insert(syntax.Source.Text.StartsWith('\uFEFF') ? 1 : 0, put + newLine) : TextEdit.Insert(line.Whole.End, newLine + put);

    public TextEdit Before(LineSyntax line, string put) => TextEdit.Insert(line.Whole.Start, put + newLine);

    /// <summary>New lines at the end of the file, behind an empty one.</summary>
    public TextEdit AtEnd(params IEnumerable<string> lines)
    {
        var text = syntax.Source.Text;
        var before = text.Length == 0 ? "" : text.EndsWith('\n') || text.EndsWith('\r') ? newLine : newLine + newLine;
        return TextEdit.Insert(text.Length, before + string.Concat(lines.Select(l => l + newLine)));
    }

    /// <summary>Sets the standing of a whole line; those kept to one bar stay.</summary>
    public IEnumerable<TextEdit> SetStanding(LineSyntax line, Standing standing)
    {
        var put = StandingText.Write(standing);
        var whole = Entries(line).FirstOrDefault(e => e.Bar is null);
        if (whole is not null)
            yield return put.Length > 0 ? new(whole.At, put) : Remove(line, whole.At);
        else if (put.Length > 0)
            yield return TextEdit.Insert(line.Standings.IsEmpty ? line.CodeEnd : line.Standings[0].Start, line.Standings.IsEmpty ? "  " + put : put + " ");
    }

    /// <summary>Gives one claim of a line the wanted standing: by a note behind the line, where the line's own doesn't say so already.</summary>
    /// <param name="beat">Null where a bar holds one claim only.</param>
    public IEnumerable<TextEdit> SetStandingAt(LineSyntax line, int bar, Beats? beat, Standing wanted)
    {
        var entries = Entries(line);
        var own = entries.Where(e => e.Bar == bar && e.Beat == beat).ToList();
        var rest = entries.Except(own).ToList();
        var otherwise = (rest.LastOrDefault(e => e.Bar == bar && e.Beat is null) ?? rest.FirstOrDefault(e => e.Bar is null))?.Standing ?? Standing.Decided;
        var put = wanted == otherwise ? ""
            : $"~bar {bar}{(beat is { } at ? $" beat {BeatText.Write(at)}" : "")} {(wanted == Standing.Decided ? "decided" : StandingText.Write(wanted)[1..])}";
        foreach (var old in own.SkipLast(put.Length > 0 ? 1 : 0))
            yield return Remove(line, old.At);
        if (put.Length > 0)
            yield return own.Count > 0 ? new(own[^1].At, put) : TextEdit.Insert(line.CodeEnd, "  " + put);
    }

    /// <summary>The standing that a claim has from the line's end, marks aside.</summary>
    public List<StandingEntry> Entries(LineSyntax line) => [.. new StandingReader(new(syntax.Source, "")).ReadAll(line)];

    /// <summary>Takes a line away; its comment stays.</summary>
    public TextEdit WithoutLine(LineSyntax line)
    {
        if (line.CodeEnd < line.Whole.End && line.Text[line.CodeEnd..line.Whole.End].TrimStart() is { Length: > 0 } comment)
            return new(Span.FromTo(line.Whole.Start, line.Whole.End - comment.Length), "");
        var next = syntax.Lines.FirstOrDefault(l => l.Whole.Start > line.Whole.Start);
        return new(Span.FromTo(line.Whole.Start, next?.Whole.Start ?? line.Whole.End), "");
    }

    /// <summary>Takes a standing away with the space before it.</summary>
    public TextEdit Remove(LineSyntax line, Span standing)
    {
        var start = standing.Start;
        while (start > line.Whole.Start && char.IsWhiteSpace(syntax.Source.Text[start - 1]))
            start--;
        return new(Span.FromTo(start, standing.End), "");
    }
}
