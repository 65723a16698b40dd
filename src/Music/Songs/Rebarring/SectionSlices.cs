using System.Collections.Immutable;
using Harkbook.Music.Songs.Reading;

namespace Harkbook.Music.Songs.Rebarring;

/// <summary>A file's sections as they stand, each with the comments over it and the empty lines before them.</summary>
internal sealed class SectionSlices
{
    private readonly string text;
    private readonly ImmutableArray<int> starts;

    public SectionSlices(SongSyntax syntax)
    {
        text = syntax.Source.Text;
        starts = [.. syntax.Sections.Select((s, i) => i == 0 ? s.Header.Whole.Start : Start(syntax, s.Header)), End(syntax, text.Length)];
    }

    /// <summary>The last one without what stands behind its last line.</summary>
    public string Of(int section) => text[starts[section]..starts[section + 1]];

    /// <summary>Behind the last line before a header that is more than a comment.</summary>
    private static int Start(SongSyntax syntax, LineSyntax header) => End(syntax, header.Whole.Start);

    private static int End(SongSyntax syntax, int before)
    {
        var last = syntax.Lines.Last(l => !l.IsBlank && l.Whole.Start < before);
        return syntax.Lines.FirstOrDefault(l => l.Whole.Start > last.Whole.Start)?.Whole.Start ?? last.Whole.End;
    }
}
