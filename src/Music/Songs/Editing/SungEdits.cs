using System.Collections.Immutable;
using Harkbook.Music.Songs.Reading;
using Harkbook.Music.Songs.Writing;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs.Editing;

/// <summary>Puts other syllables into bars of a section: inside the section's own lines where they have the bar, else on lines of their own.</summary>
internal sealed class SungEdits(SongSyntax syntax, Meter songMeter)
{
    private const int BarsPerLine = 4;
    private static readonly Voice Sung = new(SongPart.Sung);

    private readonly LineEdits lines = new(syntax);

    /// <param name="first">The section's bar (1 = its first) that the syllables start in.</param>
    public IEnumerable<TextEdit> SetBars(int sectionIndex, int first, IReadOnlyList<ImmutableArray<Claim<string>>> sung)
    {
        var section = syntax.Sections[sectionIndex];
        var script = Script(section, first, sung);
        string Cells(int bar) => $" {string.Join(' ', BarGrid.Cells(section.MeterOf(bar, songMeter), script.Events(bar, Standing.Decided)))} ";
        var written = section.BarsOf(Sung);
        var (own, missing) = (new List<int>(), new List<int>());
        foreach (var bar in Enumerable.Range(first, sung.Count))
            (written.TryGetValue(bar, out var there) && section.Lines.Contains(there.Line) ? own : missing).Add(bar);
        return
        [
            .. own.Select(bar => new TextEdit(written[bar].Bar.Between, Cells(bar))),
            .. own.GroupBy(bar => written[bar].Line).SelectMany(line => Decide(line.Key, [.. line])),
            .. Runs(missing).Select(run => AddLines(section, run, Cells)),
        ];
    }

    private VoiceScript Script(SectionSyntax section, int first, IReadOnlyList<ImmutableArray<Claim<string>>> sung)
    {
        var bars = Enumerable.Range(1, section.BarCount).Select(n => new Bar { Number = n, Meter = section.MeterOf(n, songMeter) }).ToImmutableArray();
        return new(bars, sung.SelectMany((claims, i) => claims.Select(c => new Written(first
            + i, c.Start, c.Length, PlainText.Cell(c.Value, isChord: false), c.Standing) { IsSung = true })));
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

    /// <summary>Where they can't shift a meter line that holds "from the next bar": before the next sung line, else at the section's end.</summary>
    private TextEdit AddLines(SectionSyntax section, List<int> run, Func<int, string> cells)
    {
        var later = section.Lines.FirstOrDefault(l => l.Voice == Sung && l.FirstBar > run[0])?.Line;
        var isWhole = run.Count == section.BarCount;
        var put = run.Chunk(BarsPerLine).Select(bars =>
            $"{(isWhole || bars[0] > run[0] ? "sung" : $"sung from {bars[0]}"),-10} |{string.Concat(bars.Select(b => cells(b) + "|"))}");
        var text = string.Join(syntax.Source.NewLine, put);
        return later is null ? lines.After(section.LastLine, text) : lines.Before(later, text);
    }

    private static IEnumerable<List<int>> Runs(List<int> bars) =>
        bars.Select((bar, i) => (bar, Run: bar - i)).GroupBy(b => b.Run, b => b.bar).Select(g => g.ToList());
}
