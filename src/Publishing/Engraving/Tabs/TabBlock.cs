using Harkbook.Music.Analysis;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving.Rows;

namespace Harkbook.Publishing.Engraving.Tabs;

/// <summary>A picked passage as tablature over the beat ruler, with chord names above: bars that follow each other, on as many lines as they need.</summary>
public static class TabBlock
{
    /// <param name="width">Points; 120 or more.</param>
    /// <param name="names">Under a capo, the chords' two names.</param>
    public static Drawing Engrave(IReadOnlyList<Bar> bars, Fretboard neck, double width, Counting counting = Counting.Beats, CapoNames? names = null) =>
        BarStack.Engrave(bars, [new ChordRow(bars, names), new TabRow(neck, bars, 9.6), new CountRow(counting)], width);
}

/// <summary>A harmonica passage: holes and breath under the beat ruler, with chord names above and sung syllables between.</summary>
public static class HarpStrip
{
    /// <param name="width">Points; 120 or more.</param>
    public static Drawing Engrave(IReadOnlyList<Bar> bars, double width, Counting counting = Counting.Beats) =>
        BarStack.Engrave(bars, [new ChordRow(bars), new CountRow(counting), new HarpRow(10.5)], width);
}

internal static class BarStack
{
    private const double LineGap = 12;

    public static Drawing Engrave(IReadOnlyList<Bar> bars, IReadOnlyList<BarRow> rows, double width)
    {
        if (bars.Count == 0)
            throw new ArgumentException("A passage has one bar or more.", nameof(bars));
        if (!(width >= 120))
            throw new ArgumentOutOfRangeException(nameof(width), width, "A line of bars needs 120 points or more.");
        var sketch = new Sketch();
        var y = 0.0;
        foreach (var line in new BarSystems(rows, width).Of(bars))
        {
            sketch.Add(line.Placed(0, y));
            y += line.Height + LineGap;
        }
        var title = PlaceWords.Bars(bars[0].Number, bars[^1].Number);
        return sketch.ToDrawing(width, y - LineGap + 1, title);
    }
}
