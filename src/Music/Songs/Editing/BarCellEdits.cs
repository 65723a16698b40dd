using Harkbook.Music.Songs.Reading;

namespace Harkbook.Music.Songs.Editing;

/// <summary>
/// Puts other cells into bars of a section's voice, decided: inside the section's own lines where they have the bar, else on lines of their own, which go
/// before what the section takes over or repeats.
/// </summary>
/// <param name="word">What the voice's lines begin with.</param>
internal sealed class BarCellEdits(SongSyntax syntax, Voice voice, string word)
{
    private const int BarsPerLine = 4;

    private readonly LineEdits lines = new(syntax);

    /// <param name="bars">Of the section (1 = its first), rising.</param>
    /// <param name="cells">What then stands between a bar's lines.</param>
    public IEnumerable<TextEdit> SetBars(SectionSyntax section, IEnumerable<int> bars, Func<int, string> cells)
    {
        var written = section.BarsOf(voice);
        var (own, missing) = (new List<int>(), new List<int>());
        foreach (var bar in bars)
            (written.TryGetValue(bar, out var there) && !there.Line.Repeats && section.Lines.Contains(there.Line) ? own : missing).Add(bar);
        return
        [
            .. own.Select(bar => new TextEdit(written[bar].Bar.Between, cells(bar))),
            .. own.GroupBy(bar => written[bar].Line).SelectMany(line => Decide(line.Key, [.. line])),
            .. Runs(missing).Select(run => AddLines(section, run, cells)),
        ];
    }

    /// <summary>Takes what the line says of these bars' standing away, and notes where its own would still hold for them.</summary>
    private IEnumerable<TextEdit> Decide(PartLine line, HashSet<int> bars)
    {
        var whole = Enumerable.Range(line.FirstBar, line.Bars.Length).All(bars.Contains);
        var entries = lines.Entries(line.Line);
        foreach (var entry in entries.Where(e => e.Bar is { } bar ? bars.Contains(bar) : whole))
            yield return lines.Remove(line.Line, entry.At);
        if (!whole && entries.FirstOrDefault(e => e.Bar is null) is { } own && own.Standing != Standing.Decided)
            yield return TextEdit.Insert(line.Line.CodeEnd, string.Concat(bars.Order().Select(b => $"  ~bar {b} decided")));
    }

    /// <summary>Where they can't shift a meter line that holds "from the next bar": before the voice's next line, else at the section's end.</summary>
    private TextEdit AddLines(SectionSyntax section, List<int> run, Func<int, string> cells)
    {
        var later = section.Lines.FirstOrDefault(l => l.Voice == voice && !l.Repeats && l.FirstBar > run[0])?.Line;
        var isWhole = run.Count == section.BarCount;
        var put = run.Chunk(BarsPerLine).Select(bars =>
            $"{(isWhole || bars[0] > run[0] ? word : $"{word} from {bars[0]}"),-10} |{string.Concat(bars.Select(b => cells(b) + "|"))}");
        var text = string.Join(syntax.Source.NewLine, put);
        return later is null ? lines.After(section.LastLine, text) : lines.Before(later, text);
    }

    private static IEnumerable<List<int>> Runs(List<int> bars) =>
        bars.Select((bar, i) => (bar, Run: bar - i)).GroupBy(b => b.Run, b => b.bar).Select(g => g.ToList());
}
