using System.Collections.Immutable;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving.Rows;

namespace Harkbook.Publishing.Engraving.Tabs;

/// <summary>
/// One line a string, the high one on top and each named by its pitch; notes stand where they sound, slurred where one goes on from
/// another. Over the strings stand bends, vibrato and what is let ring, under them the picking hand's fingers, where a song has any.
/// </summary>
internal sealed class TabRow : BarRow
{
    private const double GoodMiss = 1.5;
    private readonly Fretboard neck;
    private readonly double gap;
    private readonly TabSigns signs;
    private readonly TabFingers fingers;
    private readonly TabBonds bonds;
    private readonly Silences? silences;

    public TabRow(Fretboard neck, IEnumerable<Bar> bars, double gap = 7.4, Silences? silences = null) : this(neck, [.. bars], gap, silences, null)
    {
    }

    private TabRow(Fretboard neck, ImmutableArray<Bar> bars, double gap, Silences? silences, TabBonds? known)
    {
        (this.neck, this.gap, this.silences) = (neck, gap, silences);
        (signs, fingers, bonds) = (new(bars, gap), new(bars, gap), known ?? new(bars, gap));
    }

    public override string Label => "";

    public override double Height => signs.Height + (neck.Tuning.Count - 1) * gap + gap * 1.9 + fingers.Height;

    /// <summary>With room for the signs of these bars and no more.</summary>
    public override BarRow For(IEnumerable<Bar> bars) => new TabRow(neck, [.. bars], gap, silences, bonds);

    public override bool Has(Bar bar) => !bar.Picked.IsEmpty || silences?.In(bar).Count > 0;

    public override bool Fits(BarSlot slot)
    {
        var places = Places(slot);
        return places.All(s => s.All(p => p is { Scale: 1, Miss: <= GoodMiss })) && signs.Fit(slot, places) && fingers.Fit(slot, places);
    }

    public override void DrawMargin(Sketch sketch, double right, double top, double least = 6.6)
    {
        for (var i = neck.Tuning.Count - 1; i >= 0; i--)
            sketch.Text(PitchText.Of(neck.Tuning.Strings[i]), right - 5, Y(i, top) + gap * 0.3, Face.Narrow, Math.Max(gap * 0.86, least), Tint.Quiet,
                Align.Right);
    }

    public override void Draw(Sketch sketch, BarSlot slot, double top)
    {
        for (var i = 0; i < neck.Tuning.Count; i++)
            sketch.Line(slot.Left, Y(i, top), slot.Right, Y(i, top), 0.45);
        var places = Places(slot);
        foreach (var place in places.SelectMany(s => s))
            DrawNote(sketch, place, Y(place.Note.StringIndex, top));
        foreach (var onString in places)
            bonds.Draw(sketch, slot, onString, Y(onString[0].Note.StringIndex, top));
        signs.Draw(sketch, slot, places, top, i => Y(i, top));
        fingers.Draw(sketch, slot, places, top + Height - gap * 0.5 - fingers.Height);
        DrawSilences(sketch, slot, [.. places.SelectMany(s => s)], (Y(0, top) + Y(neck.Tuning.Count - 1, top)) / 2 - gap);
        MarkHeard(sketch, slot, slot.Bar.Picked.DistinctBy(p => p.Start), top + Height - 1.5);
    }

    /// <summary>Rests stand between what ends before them and what starts after.</summary>
    private void DrawSilences(Sketch sketch, BarSlot slot, TabPlace[] places, double top)
    {
        foreach (var at in silences?.In(slot.Bar) ?? [])
        {
            var left = places.Where(p => p.Cell.Claim.Start < at).Select(p => p.Right + 1).Append(slot.Left + 1).Max();
            var right = places.Where(p => p.Cell.Claim.Start >= at).Select(p => p.Left - 1).Append(slot.InnerRight).Min() - RestSign.Width(gap * 2);
            if (left <= right)
                RestSign.Draw(sketch, Math.Clamp(slot.X(at) - 2, left, right), top, gap * 2);
        }
    }

    private TabPlace[][] Places(BarSlot slot) => TabPlace.Of(slot, neck, gap * 0.98);

    private void DrawNote(Sketch sketch, TabPlace place, double y)
    {
        sketch.Fill(new Box(place.Left - 0.6, y - gap * 0.46, place.Right + 0.6, y + gap * 0.46), Tint.Paper);
        place.Cell.Draw(sketch, place.Left, y, place.Scale);
    }

    private double Y(int stringIndex, double top) => top + signs.Height + gap * 0.7 + (neck.Tuning.Count - 1 - stringIndex) * gap;
}
