using System.Globalization;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Engraving.Rows;

/// <summary>Strokes of the strumming hand: an arrow towards the floor, one towards the ceiling, a cross for a muted one.</summary>
internal sealed class StrumRow(Silences? silences = null) : BarRow
{
    public override string Label => "strum";

    public override double Height => 14;

    public override double LabelBaseline => 8.5;

    public override bool Has(Bar bar) => !bar.Strums.IsEmpty || silences?.In(bar).Count > 0;

    public override void Draw(Sketch sketch, BarSlot slot, double top)
    {
        foreach (var strum in slot.Bar.Strums)
            DrawStroke(sketch, strum.Value, slot.X(strum.Start), top + 0.6, 9.8);
        DrawRests(sketch, slot, silences, top + 1.6, 8, aside: 1.4);
        MarkHeard(sketch, slot, slot.Bar.Strums, top + 12);
    }

    internal static void DrawStroke(Sketch sketch, Stroke stroke, double x, double top, double height)
    {
        const double Arm = 2.3;
        var middle = top + height / 2;
        if (stroke == Stroke.Muted)
        {
            sketch.Line(x - Arm, middle - Arm, x + Arm, middle + Arm, 0.9, Tint.Ink);
            sketch.Line(x - Arm, middle + Arm, x + Arm, middle - Arm, 0.9, Tint.Ink);
            return;
        }
        Arrow.Draw(sketch, x, top, height, Arm, stroke == Stroke.Up, Tint.Ink);
    }
}

/// <summary>A slim upright arrow.</summary>
internal static class Arrow
{
    public static void Draw(Sketch sketch, double x, double top, double height, double arm, bool up, Tint tint)
    {
        var (tip, tail, back) = up ? (top, top + height, arm * 2) : (top + height, top, -arm * 2);
        sketch.Line(x, tail, x, tip + back * 0.7, arm * 0.45, tint);
        sketch.Add(new PathMark(string.Create(CultureInfo.InvariantCulture,
            $"M{x:0.###} {tip:0.###}L{x + arm:0.###} {tip + back:0.###}L{x - arm:0.###} {tip + back:0.###}Z"), new(Fill: tint)));
    }
}
