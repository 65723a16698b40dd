using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Units;

namespace Harkbook.Publishing.Engraving;

/// <summary>Harmonica holes with their breath; notes that start together stand together.</summary>
internal sealed class HarpRow(double size = 8.6) : BarRow
{
    private const double Gap = 2.4;
    private const double GoodMiss = 3.5;

    public override string Label => "harp";

    public override double Height => size * 1.65;

    public override double LabelBaseline => size;

    public override bool Has(Bar bar) => !bar.Harp.IsEmpty;

    public override bool Fits(BarSlot slot) => Lay(slot, Signs(slot)) is { Scale: 1, Miss: <= GoodMiss };

    public override void Draw(Sketch sketch, BarSlot slot, double top)
    {
        var signs = Signs(slot);
        var spread = Lay(slot, signs);
        for (var i = 0; i < signs.Length; i++)
            signs[i].Sign.Draw(sketch, spread.Lefts[i], top + size, spread.Scale);
        MarkHeard(sketch, slot, slot.Bar.Harp, top + size * 1.42);
    }

    private (Beats At, HarpSign Sign)[] Signs(BarSlot slot) =>
        [.. slot.Bar.Harp.GroupBy(h => (h.Start, h.Value.Breath)).OrderBy(g => g.Key.Start).Select(g => (g.Key.Start, new HarpSign(g.Select(h => h.Value), size)))];

    private static Spread Lay(BarSlot slot, (Beats At, HarpSign Sign)[] signs) =>
        Spread.Of([.. signs.Select(s => slot.X(s.At) - 2)], [.. signs.Select(s => s.Sign.Width)], slot.InnerLeft, slot.InnerRight, Gap);
}
