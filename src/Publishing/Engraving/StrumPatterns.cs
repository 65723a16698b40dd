using System.Collections.Immutable;
using Harkbook.Music.Analysis;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Engraving;

/// <summary>
/// The strums that a sheet prints once: a section that is strummed alike nearly throughout has its pattern at its head, and in its lines only
/// the bars that differ. A later section with the same pattern refers to the first.
/// </summary>
internal sealed class StrumPatterns
{
    private const double HeadHeight = 33;
    private const double TextSize = 7.6;

    private readonly Dictionary<int, SectionPattern> byFirstBar = [];
    private readonly Dictionary<int, bool> plain = [];

    private readonly Counting counting;

    private StrumPatterns(Song song)
    {
        counting = song.Counting;
        var firstWith = new Dictionary<string, Section>();
        foreach (var section in song.Sections)
        {
            if (Repetition.Find([.. section.Bars.Select(b => (b.Meter, Key(b)))], section.Bars.TakeWhile(b => b.Strums.IsEmpty).Count() + 1) is not { } found)
                continue;
            var bars = found.Pattern.Select(bar => section.Bars[bar - 1]).ToImmutableArray();
            var key = string.Join(" | ", bars.Select(b => $"{b.Meter} {Key(b)}"));
            var before = firstWith.GetValueOrDefault(key);
            firstWith.TryAdd(key, section);
            byFirstBar[section.Bars[0].Number] = new(bars, before?.Name, Words(section, found));
            for (var bar = found.First; bar <= section.Bars.Length; bar++)
                plain[section.Bars[bar - 1].Number] = found.Covers(bar);
        }
    }

    public static StrumPatterns Of(Song song) => new(song);

    /// <summary>Whether a bar's strokes are those at its section's head.</summary>
    public bool IsPlain(Bar bar) => plain.GetValueOrDefault(bar.Number);

    /// <summary>Whether a bar differs from the pattern at its section's head.</summary>
    public bool Differs(Bar bar) => plain.TryGetValue(bar.Number, out var same) && !same;

    /// <summary>What stands at a section's head; null where it has no pattern.</summary>
    public Drawing? Head(Section section, double width) =>
        section.Bars.IsEmpty || !byFirstBar.TryGetValue(section.Bars[0].Number, out var pattern) ? null
        : pattern.Before is { } before ? Reference(before, pattern.Words, width)
        : Strip(pattern, width);

    private static Drawing Reference(string before, string words, double width)
    {
        var sketch = new Sketch();
        sketch.Text("strum", BarLines.Margin - 5, 8.5, Face.Narrow, 6.6, Tint.Quiet, Align.Right);
        sketch.Text(TextWrap.Cut($"as in {before}, {words}", Face.Text, TextSize, width - BarLines.Margin), BarLines.Margin, 8.5, Face.Text, TextSize, Tint.Quiet);
        return sketch.ToDrawing(width, 11);
    }

    private Drawing Strip(SectionPattern pattern, double width)
    {
        var sketch = new Sketch();
        BarRow[] rows = [new StrumRow(), new CountRow(counting)];
        var left = BarLines.Margin;
        var barWidth = (width - BarLines.Margin) / 4;
        foreach (var bar in pattern.Bars)
        {
            var slot = new BarSlot(new() { Number = bar.Number, Meter = bar.Meter, Strums = bar.Strums }, left, barWidth);
            rows[0].Draw(sketch, slot, 1);
            rows[1].Draw(sketch, slot, 1 + rows[0].Height);
            sketch.Line(left, 0, left, HeadHeight - 3, 0.5);
            left = slot.Right;
        }
        sketch.Line(left - 0.25, 0, left - 0.25, HeadHeight - 3, 0.5);
        rows[0].DrawMargin(sketch, BarLines.Margin, 1);
        rows[1].DrawMargin(sketch, BarLines.Margin, 1 + rows[0].Height);
        if (left < width - 40)
            sketch.Text(TextWrap.Cut(pattern.Words, Face.Text, TextSize, width - left - 8), left + 8, 9.5, Face.Text, TextSize, Tint.Quiet);
        return sketch.ToDrawing(width, HeadHeight);
    }

    /// <summary>"bars 5 to 12, but not 8, 10 to 11".</summary>
    private static string Words(Section section, Repetition found)
    {
        var bars = PlaceWords.Bars(section.Bars[found.First - 1].Number, section.Bars[^1].Number);
        var others = PlaceWords.Runs(found.Others.Select(bar => section.Bars[bar - 1].Number)).Select(r => r.First == r.Last ? $"{r.First}" : $"{r.First} to {r.Last}");
        return found.Others.Count == 0 ? bars : $"{bars}, but not {string.Join(", ", others)}";
    }

    /// <summary>What a reader sees of a bar's strokes; null where there are none.</summary>
    private static string? Key(Bar bar) =>
        bar.Strums.IsEmpty ? null : string.Join(' ', bar.Strums.Select(s => $"{s.Start} {s.Value} {s.Standing.Kind == StandingKind.Heard}"));

    /// <param name="Before">The section at whose head the pattern stands already.</param>
    private sealed record SectionPattern(ImmutableArray<Bar> Bars, string? Before, string Words);
}
