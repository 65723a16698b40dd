using System.Collections.Immutable;
using Harkbook.Music.Analysis;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving.Rows;
using Harkbook.Publishing.Engraving.Tabs;

namespace Harkbook.Publishing.Engraving.Sheets;

/// <summary>
/// What a sheet prints once: a section that is strummed (or picked, fret for fret) alike nearly throughout has its pattern at its head, and in
/// its lines only the bars that differ. A later section with the same pattern refers to the first.
/// </summary>
internal sealed class SheetPatterns
{
    private const double TextSize = 7.6;

    private readonly BarRow row;
    private readonly Silences silences;
    private readonly string word;
    private readonly CountRow count;
    private readonly Dictionary<int, SectionPattern> byFirstBar = [];
    private readonly Dictionary<int, bool> covered = [];

    private SheetPatterns(Song song, BarRow row, Silences silences, string word, Func<Bar, Bar> only)
    {
        (this.row, this.silences, this.word, count) = (row, silences, word, new(song.Counting));
        var firstWith = new Dictionary<string, Section>();
        foreach (var section in song.Sections)
        {
            if (Repetition.Find([.. section.Bars.Select(b => (b.Meter, Seen(only(b))))], section.Bars.TakeWhile(b => !row.Has(b)).Count() + 1) is not { } found)
                continue;
            var bars = found.Pattern.Select(bar => only(section.Bars[bar - 1])).ToImmutableArray();
            var key = string.Join(" | ", bars.Select(b => $"{b.Meter} {Seen(b)}"));
            byFirstBar[section.Bars[0].Number] = new(bars, firstWith.GetValueOrDefault(key)?.Name, Words(section, found));
            firstWith.TryAdd(key, section);
            for (var bar = found.First; bar <= section.Bars.Length; bar++)
                covered[section.Bars[bar - 1].Number] = found.Covers(bar);
        }
    }

    public static SheetPatterns OfStrums(Song song) =>
        new(song, new StrumRow(Silences.OfStrums(song)), Silences.OfStrums(song), "strum",
            b => new() { Number = b.Number, Meter = b.Meter, Strums = b.Strums });

    public static SheetPatterns OfTab(Song song) =>
        new(song, new TabRow(new(song.Tuning.Value, song.Capo.Value), song.Bars, 8.2, Silences.OfPicked(song)), Silences.OfPicked(song), "tab",
            b => new() { Number = b.Number, Meter = b.Meter, Picked = b.Picked });

    /// <summary>The row of the sheet's lines.</summary>
    public BarRow Row => new OncePrintedRow(row, this, word == "tab" ? "" : "no stroke");

    /// <summary>Whether a bar is as the pattern at its section's head; null where the section has none.</summary>
    public bool? Covers(Bar bar) => covered.TryGetValue(bar.Number, out var same) ? same : null;

    /// <summary>What stands at a section's head; null where it has no pattern.</summary>
    public Drawing? Head(Section section, double width) =>
        section.Bars.IsEmpty || !byFirstBar.TryGetValue(section.Bars[0].Number, out var pattern) ? null
        : pattern.Before is { } before ? Reference(before, pattern.Words, width)
        : Strip(pattern, width);

    private Drawing Reference(string before, string words, double width)
    {
        var sketch = new Sketch();
        sketch.Text(word, BarSystems.Margin - 5, 8.5, Face.Narrow, 6.6, Tint.Quiet, Align.Right);
        sketch.Text(TextWrap.Cut($"as in {before}, {words}", Face.Text, TextSize, width - BarSystems.Margin), BarSystems.Margin, 8.5, Face.Text, TextSize,
            Tint.Quiet);
        return sketch.ToDrawing(width, 11);
    }

    private Drawing Strip(SectionPattern pattern, double width)
    {
        var sketch = new Sketch();
        BarRow[] rows = [row.For(pattern.Bars), count];
        var slots = Slots(pattern.Bars, rows, width);
        var top = 1.0;
        foreach (var part in rows)
        {
            part.DrawMargin(sketch, BarSystems.Margin, top);
            foreach (var slot in slots)
                part.Draw(sketch, slot, top);
            top += part.Height;
        }
        var right = slots[^1].Right;
        foreach (var x in slots.Select(s => s.Left).Append(right - 0.25))
            sketch.Line(x, 0, x, top, 0.5);
        if (right < width - 60)
            sketch.Text(TextWrap.Cut(slots.Length > 1 ? $"these {slots.Length} in turn, {pattern.Words}"
                : pattern.Words, Face.Text, TextSize, width - right - 8), right + 8, 9.5, Face.Text, TextSize, Tint.Quiet);
        return sketch.ToDrawing(width, top + 2);
    }

    /// <summary>A bar a quarter of the line, wider where it needs more room.</summary>
    private static ImmutableArray<BarSlot> Slots(ImmutableArray<Bar> bars, BarRow[] rows, double width)
    {
        var room = width - BarSystems.Margin;
        ImmutableArray<BarSlot> Of(double each) => [.. bars.Select((b, i) => new BarSlot(b, BarSystems.Margin + i * each, each))];
        var widths = new[] { 4, 3, 2, 1 }.Where(n => n >= bars.Length).Select(n => Of(room / n)).ToList();
        return widths.FirstOrDefault(slots => slots.All(s => rows.All(r => r.Fits(s))), widths[^1]);
    }

    /// <summary>"bars 5 to 12, but not 8, 10 to 11".</summary>
    private static string Words(Section section, Repetition found)
    {
        int Number(int bar) => section.Bars[bar - 1].Number;
        var last = Enumerable.Range(found.First, section.Bars.Length - found.First + 1).Last(found.Covers);
        var others = PlaceWords.Runs(found.Others.Where(bar => bar < last).Select(Number)).Select(r => r.First == r.Last ? $"{r.First}"
            : $"{r.First} to {r.Last}").ToList();
        return PlaceWords.Bars(Number(found.First), Number(last)) + (others.Count > 0 ? $", but not {string.Join(", ", others)}" : "");
    }

    /// <summary>What a reader sees of a bar; null where there is nothing.</summary>
    private string? Seen(Bar bar) =>
        row.Has(bar) ? string.Join(' ', [.. bar.Strums.Select(Seen), .. bar.Picked.Select(Seen), .. silences.In(bar).Select(at => $"{at} _")]) : null;

    private static string Seen<T>(Claim<T> claim) => $"{claim.Start} {claim.Value} {claim.Standing.Kind == StandingKind.Heard}";

    /// <param name="Before">The section at whose head the pattern stands already.</param>
    private sealed record SectionPattern(ImmutableArray<Bar> Bars, string? Before, string Words);
}
