using System.Globalization;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Engraving.Rows;

/// <summary>
/// Holes that sound on one breath, with an arrow: up for blow, down for draw; ′ for each semitone bent, o for an over-bend,
/// &lt; for the slide of a chromatic one (all common practice).
/// </summary>
internal sealed class HarpSign
{
    private readonly string text;
    private readonly bool blows;
    private readonly double size;

    public HarpSign(IEnumerable<HarpNote> notes, double size)
    {
        var sorted = notes.OrderBy(n => n.Hole).ToArray();
        this.size = size;
        blows = sorted[0].Breath == Breath.Blow;
        text = string.Join(' ', sorted.Select(Shown));
    }

    public double Width => FontBook.Width(text, Face.NarrowStrong, size) + size * 0.62;

    public void Draw(Sketch sketch, double left, double baseline, double scale = 1)
    {
        var s = size * scale;
        var tint = blows ? Tint.Blow : Tint.Draw;
        var end = left + sketch.Text(text, left, baseline, Face.NarrowStrong, s, tint, says: text + (blows ? '↑' : '↓'));
        Arrow.Draw(sketch, end + s * 0.36, baseline - s * 0.72, s * 0.76, s * 0.19, blows, tint);
    }

    /// <summary>A hole with its bend, slide or over-bend, as "3′", "5&lt;" or "6o".</summary>
    public static string Shown(HarpNote note) =>
        note.Hole.ToString(CultureInfo.InvariantCulture) + (note.Slide ? "<" : note.Bend > 0 ? "o" : new string('′', -note.Bend));
}
