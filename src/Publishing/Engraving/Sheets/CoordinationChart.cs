using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving.Rows;
using Harkbook.Publishing.Engraving.Tabs;

namespace Harkbook.Publishing.Engraving.Sheets;

/// <summary>
/// A passage for practising voice and guitar together: syllables, both lines on one count with marks where they meet, strokes and
/// counting words.
/// </summary>
public static class CoordinationChart
{
    private const double Gap = 10;
    private const double KeyHeight = 10;

    /// <param name="bars">Bars that follow each other, one or more.</param>
    /// <param name="tuneOf">The song whose tune stands under the syllables; null where none is to.</param>
    /// <param name="width">Points; 200 or more, so that the key below fits.</param>
    public static Drawing Engrave(IReadOnlyList<Bar> bars, double width, Counting counting = Counting.Beats, CapoNames? names = null,
        Song? tuneOf = null)
    {
        if (!(width >= 200))
            throw new ArgumentOutOfRangeException(nameof(width), width, "Two lines and their key need 200 points or more.");
        var passage = BarStack.Engrave(bars, Rows(bars, counting, names, tuneOf), width);
        var sketch = new Sketch();
        sketch.Add(passage.Placed(0, 0));
        sketch.Add(Key(width).Placed(0, passage.Height + Gap));
        return sketch.ToDrawing(width, passage.Height + Gap + KeyHeight, $"voice and guitar, {passage.Title}");
    }

    internal static BarRow[] Rows(IReadOnlyList<Bar> bars, Counting counting, CapoNames? names = null, Song? tuneOf = null) =>
        [new ChordRow(bars, names), new SungRow(), .. tuneOf is null ? Array.Empty<BarRow>() : [new TuneRow(tuneOf)], new TwoPartsRow(),
            new StrumRow(), new CountRow(counting)];

    internal static Drawing Key(double width)
    {
        var sketch = new Sketch();
        var x = BarSystems.Margin;
        sketch.Line(x + 1.4, 1.6, x + 1.4, 8.4, 1.5, Tint.Ink);
        x += 6 + sketch.Text("together", x + 6, 7.4, Face.Text, 7.2, Tint.Quiet) + 14;
        sketch.Ring(x + 2.7, 5, 2.5, 1.1, Tint.Voice, Tint.Paper);
        x += 9 + sketch.Text("voice alone", x + 9, 7.4, Face.Text, 7.2, Tint.Quiet) + 14;
        sketch.Add(new RectMark(Box.At(x + 0.6, 2.6, 4.6, 4.6), 0, new(Tint.Paper, Tint.Ink, 1.1)));
        sketch.Text("guitar alone", x + 9, 7.4, Face.Text, 7.2, Tint.Quiet);
        return sketch.ToDrawing(width, KeyHeight);
    }
}
