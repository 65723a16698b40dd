using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving.Rows;
using Harkbook.Units;

namespace Harkbook.Publishing.Engraving.Tabs;

/// <summary>Slurs to notes that go on from the one before on their string, over bar lines too, and slanted lines where the finger slides.</summary>
internal sealed class TabBonds
{
    private readonly double gap;
    private readonly HashSet<(int Bar, int String)> leaving = [], entering = [];

    /// <param name="bars">The whole song's or passage's, in order.</param>
    public TabBonds(IEnumerable<Bar> bars, double gap)
    {
        this.gap = gap;
        var last = new Dictionary<int, (int Bar, Beats Over)>();
        foreach (var (bar, claim) in bars.SelectMany(b => b.Picked.OrderBy(p => p.Start).Select(p => (b, p))))
        {
            var index = claim.Value.StringIndex;
            if (TabCell.IsBoundTo(claim.Value) && last.TryGetValue(index, out var before) && before.Bar == bar.Number - 1 && before.Over >= claim.Start)
            {
                leaving.Add((before.Bar, index));
                entering.Add((bar.Number, index));
            }
            last[index] = (bar.Number, claim.Start + claim.Length - bar.Meter.BarLength);
        }
    }

    /// <param name="notes">One string's notes in a bar, in order.</param>
    /// <param name="y">The string's height.</param>
    public void Draw(Sketch sketch, BarSlot slot, TabPlace[] notes, double y)
    {
        for (var i = 0; i < notes.Length; i++)
        {
            if (i > 0 && TabCell.IsBoundTo(notes[i].Note) && Rings(notes[i - 1].Cell.Claim, notes[i].Cell.Claim))
                DrawBond(sketch, notes[i - 1], notes[i], y);
        }
        var place = (slot.Bar.Number, notes[0].Note.StringIndex);
        if (entering.Contains(place) && TabCell.IsBoundTo(notes[0].Note))
            TabSlur.DrawHalf(sketch, slot.Left + 0.4, To(notes[0]), Over(y));
        if (leaving.Contains(place))
            TabSlur.DrawHalf(sketch, slot.Right - 0.4, From(notes[^1]), Over(y));
    }

    private void DrawBond(Sketch sketch, TabPlace from, TabPlace to, double y)
    {
        TabSlur.Draw(sketch, From(from), To(to), Over(y));
        var (left, right) = (from.Right + 1, to.Left - 1);
        if (to.Note.Attack != Attack.Slid || to.Note.Graces.Count > 0 || right - left < 2.5)
            return;
        var rise = (to.Note.Fret < from.Note.Fret ? -1 : 1) * gap * 0.26;
        sketch.Line(left, y + rise, right, y - rise, 0.8, Tint.Ink);
    }

    /// <summary>Nothing goes on from a note that has ended.</summary>
    private static bool Rings(Claim<PickedNote> from, Claim<PickedNote> to) => from.Start + from.Length >= to.Start;

    private double Over(double y) => y - gap * 0.37;

    /// <summary>Slurs stand over the numbers, beside the brackets of a ghost note.</summary>
    private static double From(TabPlace place) => place.Note.IsGhost ? place.MainRight : place.MainMiddle;

    private static double To(TabPlace place) => place.Note.IsGhost ? place.MainLeft : place.MainMiddle;
}
