using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Engraving.Rows;

namespace Harkbook.Publishing.Engraving.Tabs;

/// <summary>A cell where it stands in its bar.</summary>
/// <param name="Left">Of all that belongs to it.</param>
/// <param name="Wished">Where its number should stand.</param>
internal sealed record TabPlace(TabCell Cell, double Left, double Scale, double Wished)
{
    private const double Gap = 1.3;

    public PickedNote Note => Cell.Note;

    public double MainLeft => Left + Cell.MainLeft * Scale;

    public double MainRight => Left + Cell.MainRight * Scale;

    public double MainMiddle => Left + Cell.MainMiddle * Scale;

    /// <summary>How far its number stands beside its place.</summary>
    public double Miss => Math.Max(0, Math.Max(MainLeft - Wished, Wished - MainRight));

    public double Right => Left + Cell.FullWidth * Scale;

    /// <summary>The notes of a bar by string, each string's in order; those of one string don't touch.</summary>
    public static TabPlace[][] Of(BarSlot slot, Fretboard neck, double size) =>
    [
        .. slot.Bar.Picked.Where(p => p.Value.StringIndex < neck.Tuning.Count).GroupBy(p => p.Value.StringIndex)
            .Select(g => Lay(slot, [.. g.OrderBy(p => p.Start).Select(p => new TabCell(p, size, neck.Capo))])),
    ];

    private static TabPlace[] Lay(BarSlot slot, TabCell[] cells)
    {
        var spread = Spread.Of([.. cells.Select(c => slot.X(c.Claim.Start) - c.MainMiddle)], [.. cells.Select(c => c.FullWidth)], slot.Left + 1, slot.Right - 1,
            Gap);
        return [.. cells.Select((c, i) => new TabPlace(c, spread.Lefts[i], spread.Scale, slot.X(c.Claim.Start)))];
    }
}
