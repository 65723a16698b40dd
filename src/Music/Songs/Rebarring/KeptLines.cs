using System.Collections.Immutable;
using Harkbook.Music.Songs.Reading;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Rebarring;

/// <summary>A comment, or a line that is kept as it is, and where on the axis of beats it belongs.</summary>
/// <param name="Voice">The voice behind whose line it stands; null for a line of its own.</param>
internal sealed record KeptLine(Beats At, Voice? Voice, string Text);

/// <summary>What stands in the sections besides claims: comments, and facts or shapes that stand there out of order.</summary>
internal sealed class KeptLines
{
    private readonly Dictionary<LineSyntax, ImmutableArray<string>> above = [];

    public KeptLines(SongSyntax syntax, SongAxis line)
    {
        var parts = syntax.Sections.SelectMany((s, i) => s.Lines.Select(l => (Line: l, Section: i))).DistinctBy(l => l.Line.Line).ToDictionary(l =>
            l.Line.Line);
        var (waiting, section, inPattern) = (new List<string>(), -1, false);
        foreach (var at in syntax.Lines.SkipWhile(l => l.Keyword.Text != "section"))
        {
            var comment = Comment(at);
            if (at.IsBlank)
            {
                if (comment.Length > 0)
                    waiting.Add(comment);
                continue;
            }
            inPattern = at.Keyword.Text == SongSyntax.Pattern || (inPattern && SongSyntax.IsString(at));
            if (at.Keyword.Text == "section")
            {
                section++;
                above[at] = [.. waiting];
                waiting = [];
            }
            else if (parts.TryGetValue(at, out var part))
            {
                var start = line.StartOf(part.Section, part.Line.FirstBar);
                notes.AddRange(waiting.Select(w => new KeptLine(start, null, w)));
                waiting = [];
                if (comment.Length > 0)
                    notes.Add(new(start, part.Line.Voice, comment));
            }
            else
            {
                if (inPattern || at.Keyword.Text == "shape"
                    || (SongSyntax.FactWords.Contains(at.Keyword.Text) && at.Keyword.Text is not ("meter" or "key" or "harp" or SongSyntax.Tune)))
                    waiting.Add(at.Whole.In(at.Text).Trim());
                else if (comment.Length > 0)
                    waiting.Add(comment);
                if (at.Keyword.Text == "anchors")
                {
                    notes.AddRange(waiting.Select(w => new KeptLine(line.SectionStarts[section], null, w)));
                    waiting = [];
                }
            }
        }
        AtEnd = [.. waiting];
    }

    private readonly List<KeptLine> notes = [];

    public IReadOnlyList<KeptLine> All => notes;

    /// <summary>Comments behind the last claim.</summary>
    public ImmutableArray<string> AtEnd { get; }

    /// <summary>Comments over a section's header.</summary>
    public ImmutableArray<string> Above(LineSyntax header) => above[header];

    private static string Comment(LineSyntax line) => line.Text[Math.Min(line.CodeEnd, line.Whole.End)..line.Whole.End].Trim();
}
