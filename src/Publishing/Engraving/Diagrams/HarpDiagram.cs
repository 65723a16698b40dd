using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving.Rows;

namespace Harkbook.Publishing.Engraving.Diagrams;

/// <summary>
/// A harmonica from the player's side: hole numbers on the comb, the blown notes above, the drawn ones below, and what
/// sounds now lit: filled, ringed and with its bend written.
/// </summary>
public static class HarpDiagram
{
    private const double CombHeight = 0.78;
    private const double NoteHeight = 1.02;

    /// <param name="sounding">What to light; empty for a plain chart. All on one breath.</param>
    /// <param name="cell">The width of a hole in points, above 0.</param>
    public static Drawing Engrave(Harmonica harp, IReadOnlyCollection<HarpNote> sounding, double cell)
    {
        if (!(cell > 0))
            throw new ArgumentOutOfRangeException(nameof(cell), cell, "A hole is wider than 0 points.");
        var sketch = new Sketch();
        var left = cell * 0.95;
        var (top, comb) = (cell * 0.12, cell * (0.12 + NoteHeight));
        var bottom = comb + cell * CombHeight;
        DrawLeads(sketch, cell, top, bottom);
        sketch.Fill(Box.At(left, comb, cell * harp.Holes, cell * CombHeight), Tint.Faint, cell * 0.1);
        for (var hole = 1; hole <= harp.Holes; hole++)
        {
            var x = left + (hole - 1) * cell;
            var lit = sounding.Where(n => n.Hole == hole).ToImmutableArray();
            DrawHole(sketch, hole, lit, Box.At(x, comb, cell, cell * CombHeight));
            DrawNote(sketch, harp, new(hole, Breath.Blow), lit, Box.At(x, top, cell, cell * NoteHeight));
            DrawNote(sketch, harp, new(hole, Breath.Draw), lit, Box.At(x, bottom, cell, cell * NoteHeight));
        }
        return sketch.ToDrawing(left + cell * (harp.Holes + 0.12), bottom + cell * (NoteHeight + 0.12), Title(harp, sounding));
    }

    private static void DrawLeads(Sketch sketch, double cell, double top, double bottom)
    {
        Arrow.Draw(sketch, cell * 0.5, top + cell * 0.22, cell * 0.58, cell * 0.15, up: true, Tint.Blow);
        Arrow.Draw(sketch, cell * 0.5, bottom + cell * 0.22, cell * 0.58, cell * 0.15, up: false, Tint.Draw);
    }

    private static void DrawHole(Sketch sketch, int hole, ImmutableArray<HarpNote> lit, Box box)
    {
        var inner = box.Grown(-box.Width * 0.09);
        var fill = lit.IsEmpty ? Tint.Paper : Of(lit[0].Breath);
        sketch.Add(new RectMark(inner, box.Width * 0.08, new(fill, lit.IsEmpty ? Tint.Line : fill, box.Width * 0.03)));
        var size = box.Width * 0.42;
        sketch.Text(hole.ToString(CultureInfo.InvariantCulture), box.Centre.X, box.Centre.Y + size * FontBook.CapHeight / 2, Face.NarrowStrong, size,
            lit.IsEmpty ? Tint.Ink : Tint.OnColour, Align.Centre);
    }

    private static void DrawNote(Sketch sketch, Harmonica harp, HarpNote plain, ImmutableArray<HarpNote> lit, Box box)
    {
        var sounding = lit.Where(n => n.Breath == plain.Breath).Select(n => (HarpNote?)n).FirstOrDefault();
        var pitch = harp.FindPitch(sounding ?? plain);
        var text = pitch is { } p ? PitchText.Of(p.Name) + Bend(sounding) : "";
        var face = sounding is null ? Face.Narrow : Face.NarrowStrong;
        var size = Math.Min(box.Width * 0.46, box.Width * 0.46 * box.Width * 0.84 / Math.Max(1e-9, FontBook.Width(text, face, box.Width * 0.46)));
        if (sounding is not null)
            sketch.Add(new RectMark(box.Grown(-box.Width * 0.06), box.Width * 0.14, new(Stroke: Of(plain.Breath), Width: box.Width * 0.06)));
        sketch.Text(text, box.Centre.X, box.Centre.Y + size * FontBook.CapHeight / 2, face, size, Of(plain.Breath), Align.Centre);
    }

    private static string Bend(HarpNote? note) => note switch
    {
        { Slide: true } => "<",
        { Bend: > 0 } => "o",
        { Bend: < 0 } n => new string('′', -n.Bend),
        _ => "",
    };

    private static Tint Of(Breath breath) => breath == Breath.Blow ? Tint.Blow : Tint.Draw;

    private static string Title(Harmonica harp, IReadOnlyCollection<HarpNote> sounding) =>
        sounding.Count == 0 ? $"harmonica in {harp.Key}" : $"harmonica in {harp.Key}: {string.Join(' ', sounding)}";
}
