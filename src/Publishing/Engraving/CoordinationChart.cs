using System.Collections.Immutable;
using Harkbook.Music.Analysis;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Engraving;

/// <summary>
/// A passage for practising voice and guitar together: syllables, both lines on one count with marks where they meet, strokes and
/// counting words.
/// </summary>
public static class CoordinationChart
{
    private const double Gap = 10;
    private const double KeyHeight = 10;
    private const double LineGap = 12;
    private const string Care = "Say the words first, then sing them; start slower than feels needed. Take breaks, and stop when a hand or the voice hurts.";

    /// <param name="bars">Bars that follow each other, one or more.</param>
    /// <param name="width">Points; 200 or more, so that the key below fits.</param>
    public static Drawing Engrave(IReadOnlyList<Bar> bars, double width)
    {
        if (!(width >= 200))
            throw new ArgumentOutOfRangeException(nameof(width), width, "Two lines and their key need 200 points or more.");
        var passage = BarStack.Engrave(bars, Rows(bars), width);
        var sketch = new Sketch();
        sketch.Add(passage.Placed(0, 0));
        sketch.Add(Key(width).Placed(0, passage.Height + Gap));
        return sketch.ToDrawing(width, passage.Height + Gap + KeyHeight, $"voice and guitar, {passage.Title}");
    }

    /// <summary>The same on paper, on as many pages as it needs, under the song's title.</summary>
    public static ImmutableArray<Drawing> Pages(Song song, IReadOnlyList<Bar> bars, PaperSize paper)
    {
        if (bars.Count == 0)
            throw new ArgumentException("A passage has one bar or more.", nameof(bars));
        var flow = new PageFlow(paper, song.Title, [Care]);
        flow.Add(Heading(song.Title, bars, flow.Width), 0);
        foreach (var line in new BarLines(Rows(bars, CapoNames.Of(song)), flow.Width).Of(bars))
            flow.Add(line, LineGap);
        flow.Add(Key(flow.Width), Gap);
        return flow.Finish();
    }

    private static BarRow[] Rows(IReadOnlyList<Bar> bars, CapoNames? names = null) => [new ChordRow(bars, names), new SungRow(), new TwoLinesRow(), new StrumRow(), new CountRow()];

    private static Drawing Heading(string title, IReadOnlyList<Bar> bars, double width)
    {
        var sketch = new Sketch();
        var places = PlaceWords.Bars(bars[0].Number, bars[^1].Number);
        sketch.Text(TextWrap.Cut(title, Face.Strong, 15, width), 0, 15, Face.Strong, 15);
        sketch.Text($"voice and guitar on one count, {places}", 0, 29, Face.Text, 9, Tint.Quiet);
        return sketch.ToDrawing(width, 34);
    }

    private static Drawing Key(double width)
    {
        var sketch = new Sketch();
        var x = BarLines.Margin;
        sketch.Line(x + 1.4, 1.6, x + 1.4, 8.4, 1.5, Tint.Ink);
        x += 6 + sketch.Text("together", x + 6, 7.4, Face.Text, 7.2, Tint.Quiet) + 14;
        sketch.Ring(x + 2.7, 5, 2.5, 1.1, Tint.Voice, Tint.Paper);
        x += 9 + sketch.Text("voice alone", x + 9, 7.4, Face.Text, 7.2, Tint.Quiet) + 14;
        sketch.Add(new RectMark(Box.At(x + 0.6, 2.6, 4.6, 4.6), 0, new(Tint.Paper, Tint.Ink, 1.1)));
        sketch.Text("guitar alone", x + 9, 7.4, Face.Text, 7.2, Tint.Quiet);
        return sketch.ToDrawing(width, KeyHeight);
    }
}
