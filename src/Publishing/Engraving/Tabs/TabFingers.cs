using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving.Rows;

namespace Harkbook.Publishing.Engraving.Tabs;

/// <summary>The picking hand's letters under the strings, p i m a c; those of one moment stand over each other as their strings do.</summary>
internal sealed class TabFingers(ImmutableArray<Bar> bars, double gap)
{
    private readonly int most = bars.SelectMany(b => b.Picked.Where(p => p.Value.Finger != PickingFinger.None).GroupBy(p => p.Start)).Select(g =>
        g.Count()).DefaultIfEmpty(0).Max();

    private double Size => gap * 0.92;

    private double Line => gap * 0.84;

    public double Height => most == 0 ? 0 : most * Line + gap * 0.15;

    public bool Fit(BarSlot slot, TabPlace[][] places) => Lay(slot, Columns(places)) is { Scale: 1, Miss: <= 2 };

    public void Draw(Sketch sketch, BarSlot slot, TabPlace[][] places, double top)
    {
        var columns = Columns(places);
        var spread = Lay(slot, columns);
        for (var i = 0; i < columns.Length; i++)
        {
            for (var row = 0; row < columns[i].Length; row++)
                sketch.Text(Letter(columns[i][row]), spread.Lefts[i] + Width(columns[i]) * spread.Scale / 2, top + (row + 0.72) * Line, Face.NarrowStrong,
                    Size * spread.Scale, Tint.Ink, Align.Centre);
        }
    }

    private static TabPlace[][] Columns(TabPlace[][] places) =>
        [.. places.SelectMany(s => s).Where(p => p.Note.Finger != PickingFinger.None).GroupBy(p => p.Cell.Claim.Start).OrderBy(g => g.Key).Select(g =>
            g.OrderByDescending(p => p.Note.StringIndex).ToArray())];

    private Spread Lay(BarSlot slot, TabPlace[][] columns) =>
        Spread.Of([.. columns.Select(c => slot.X(c[0].Cell.Claim.Start) - Width(c) / 2)], [.. columns.Select(Width)], slot.InnerLeft, slot.InnerRight, 1.2);

    private double Width(TabPlace[] column) => column.Max(p => FontBook.Width(Letter(p), Face.NarrowStrong, Size));

    private static string Letter(TabPlace place) => "pimac"[(int)place.Note.Finger - 1].ToString();
}
