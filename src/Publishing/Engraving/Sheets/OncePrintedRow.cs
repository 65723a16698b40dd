using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving.Rows;
using Harkbook.Units;

namespace Harkbook.Publishing.Engraving.Sheets;

/// <summary>A row whose patterns stand at the head of their sections: in a section with one, only the bars that differ are drawn.</summary>
internal sealed class OncePrintedRow(BarRow row, SheetPatterns patterns, string nothing) : BarRow
{
    public override string Label => row.Label;

    public override double Height => row.Height;

    public override double LabelBaseline => row.LabelBaseline;

    public override BarRow For(IEnumerable<Bar> bars) => new OncePrintedRow(row.For(bars), patterns, nothing);

    public override bool Has(Bar bar) => patterns.Covers(bar) is { } covered ? !covered : row.Has(bar);

    public override bool Fits(BarSlot slot) => row.Fits(slot);

    public override void DrawMargin(Sketch sketch, double right, double top, double least = 6.6) => row.DrawMargin(sketch, right, top, least);

    public override void Draw(Sketch sketch, BarSlot slot, double top)
    {
        row.Draw(sketch, slot, top);
        if (!row.Has(slot.Bar))
            Say(sketch, slot, top, nothing);
    }

    public override void DrawElsewhere(Sketch sketch, BarSlot slot, double top)
    {
        if (patterns.Covers(slot.Bar) == true)
            Say(sketch, slot, top, "pattern");
    }

    private void Say(Sketch sketch, BarSlot slot, double top, string words) =>
        sketch.Text(words, slot.X(Beats.Zero) - 2.3, top + Height * 0.6, Face.Narrow, 6.6, Tint.Quiet);
}
