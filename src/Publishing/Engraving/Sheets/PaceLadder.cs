using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Analysis.Practice;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Engraving.Sheets;

/// <summary>The speeds of a practice, slow to fast, with a box to tick for each round.</summary>
internal static class PaceLadder
{
    private const double Step = 20;
    private const double Box = 10;
    private const double BoxesLeft = 150;

    public static Drawing Engrave(ImmutableArray<PracticeStage> stages, double width)
    {
        var sketch = new Sketch();
        sketch.Text("a box for each round that went well", BoxesLeft, 8, Face.Text, 7.6, Tint.Quiet);
        for (var i = 0; i < stages.Length; i++)
            Draw(sketch, stages[i], 16 + i * Step);
        return sketch.ToDrawing(width, 16 + stages.Length * Step);
    }

    private static void Draw(Sketch sketch, PracticeStage stage, double top)
    {
        var baseline = top + Box - 1.2;
        sketch.Text(stage.Speed.ToString("0%", CultureInfo.InvariantCulture), 28, baseline, Face.Strong, 10.2, Tint.Ink, Align.Right);
        sketch.Text(TempoText.Of(stage.Tempo), 38, baseline, Face.Text, 9, Tint.Quiet);
        for (var round = 0; round < stage.Rounds.Length; round++)
            sketch.Add(new RectMark(Drawings.Box.At(BoxesLeft + round * (Box + 8), top, Box, Box), 1.5, new(Tint.Paper, Tint.Ink, 0.8)));
    }
}
