using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Units;

namespace Harkbook.Publishing.Engraving.Rows;

/// <summary>Harmonica holes with their breath; notes that start together stand together.</summary>
internal sealed class HarpRow(double size = 8.6, Silences? silences = null) : BarRow
{
    private const double Gap = 2.4;
    private const double GoodMiss = 3.5;

    public override string Label => "harp";

    public override double Height => size * 1.65;

    public override double LabelBaseline => size;

    public override bool Has(Bar bar) => !bar.Harp.IsEmpty || silences?.In(bar).Count > 0;

    public override bool Fits(BarSlot slot) => Lay(slot, Signs(slot)) is { Scale: 1, Miss: <= GoodMiss };

    public override void Draw(Sketch sketch, BarSlot slot, double top)
    {
        var signs = Signs(slot);
        var spread = Lay(slot, signs);
        for (var i = 0; i < signs.Length; i++)
        {
            if (signs[i].Sign is { } sign)
                sign.Draw(sketch, spread.Lefts[i], top + size, spread.Scale);
            else
                RestSign.Draw(sketch, spread.Lefts[i], top + size * 0.2, size * 0.84);
        }
        MarkHeard(sketch, slot, slot.Bar.Harp, top + size * 1.42);
    }

    /// <summary>Breaths and, where there is none, rests.</summary>
    private (Beats At, HarpSign? Sign)[] Signs(BarSlot slot) =>
    [
        .. slot.Bar.Harp.GroupBy(h => (h.Start, h.Value.Breath)).Select(g => (At: g.Key.Start, Sign: (HarpSign?)new HarpSign(g.Select(h => h.Value), size)))
            .Concat((silences?.In(slot.Bar) ?? []).Select(at => (At: at, Sign: (HarpSign?)null))).OrderBy(s => s.At),
    ];

    private Spread Lay(BarSlot slot, (Beats At, HarpSign? Sign)[] signs) =>
        Spread.Of([.. signs.Select(s => slot.X(s.At) - 2)], [.. signs.Select(s => s.Sign?.Width ?? RestSign.Width(size * 0.84))], slot.InnerLeft,
            slot.InnerRight, Gap);
}
