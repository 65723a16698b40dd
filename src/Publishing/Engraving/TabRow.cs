using System.Globalization;
using Harkbook.Music.Instruments;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Engraving;

/// <summary>
/// One line a string, the high one on top and each named by its pitch; fret numbers stand where they sound, with a small
/// h, p or s before one that is hammered on, pulled off or slid to (common practice).
/// </summary>
internal sealed class TabRow(Tuning tuning, double gap = 7.4, Silences? silences = null) : BarRow
{
    private const double GoodMiss = 1.5;

    public override string Label => "";

    public override double Height => (tuning.Count - 1) * gap + gap * 1.9;

    public override bool Has(Bar bar) => !bar.Picked.IsEmpty || silences?.In(bar).Count > 0;

    public override bool Fits(BarSlot slot) => Strings(slot).All(s => Lay(slot, s) is { Scale: 1, Miss: <= GoodMiss });

    public override void DrawMargin(Sketch sketch, double right, double top, double least = 6.6)
    {
        for (var i = tuning.Count - 1; i >= 0; i--)
            sketch.Text(PitchText.Of(tuning.Strings[i]), right - 5, Y(i, top) + gap * 0.3, Face.Narrow, Math.Max(gap * 0.9, least), Tint.Quiet, Align.Right);
    }

    public override void Draw(Sketch sketch, BarSlot slot, double top)
    {
        for (var i = 0; i < tuning.Count; i++)
            sketch.Line(slot.Left, Y(i, top), slot.Right, Y(i, top), 0.45);
        foreach (var notes in Strings(slot))
            DrawString(sketch, slot, notes, top);
        DrawRests(sketch, slot, silences, (Y(0, top) + Y(tuning.Count - 1, top)) / 2 - gap, gap * 2, aside: 2);
        MarkHeard(sketch, slot, slot.Bar.Picked.DistinctBy(p => p.Start), top + Height - 1.5);
    }

    private void DrawString(Sketch sketch, BarSlot slot, Claim<PickedNote>[] notes, double top)
    {
        var spread = Lay(slot, notes);
        var y = Y(notes[0].Value.StringIndex, top);
        var size = DigitSize * spread.Scale;
        for (var i = 0; i < notes.Length; i++)
        {
            var (left, width) = (spread.Lefts[i], Width(notes[i]) * spread.Scale);
            sketch.Fill(new Box(left - 0.6, y - gap * 0.46, left + width + 0.6, y + gap * 0.46), Tint.Paper);
            left += sketch.Text(Letter(notes[i].Value.Attack), left, y + size * 0.28, Face.Narrow, size * 0.82, Tint.Quiet);
            sketch.Text(Digits(notes[i]), left, y + size * FontBook.CapHeight / 2, Face.Digits, size, Tint.Ink);
        }
    }

    private double DigitSize => gap * 1.08;

    private double Y(int stringIndex, double top) => top + gap * 0.7 + (tuning.Count - 1 - stringIndex) * gap;

    private Claim<PickedNote>[][] Strings(BarSlot slot) =>
        [.. slot.Bar.Picked.Where(p => p.Value.StringIndex < tuning.Count).GroupBy(p => p.Value.StringIndex).Select(g => g.OrderBy(p => p.Start).ToArray())];

    private Spread Lay(BarSlot slot, Claim<PickedNote>[] notes) => Spread.Of(
        [.. notes.Select(n => slot.X(n.Start) - FontBook.Width(Digits(n), Face.Digits, DigitSize) / 2 - FontBook.Width(Letter(n.Value.Attack), Face.Narrow, DigitSize * 0.82))],
        [.. notes.Select(Width)], slot.Left + 1, slot.Right - 1, 1.3);

    private double Width(Claim<PickedNote> note) =>
        FontBook.Width(Digits(note), Face.Digits, DigitSize) + FontBook.Width(Letter(note.Value.Attack), Face.Narrow, DigitSize * 0.82);

    private static string Digits(Claim<PickedNote> note) => note.Value.Fret.ToString(CultureInfo.InvariantCulture);

    private static string Letter(Attack attack) => attack switch
    {
        Attack.HammeredOn => "h",
        Attack.PulledOff => "p",
        Attack.Slid => "s",
        _ => "",
    };
}
