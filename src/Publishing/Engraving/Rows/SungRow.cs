using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Engraving.Rows;

/// <summary>Sung syllables, each beginning where its sound does, with a line for as long as it is held.</summary>
internal sealed class SungRow : BarRow
{
    private const double Size = 8.8;
    private const double Gap = 2.4;
    private const double GoodMiss = 3.5;

    public override string Label => "sung";

    public override double Height => 14.5;

    public override double LabelBaseline => 9;

    public override bool Has(Bar bar) => !bar.Sung.IsEmpty;

    public override bool Fits(BarSlot slot) => Lay(slot) is { Scale: 1, Miss: <= GoodMiss };

    public override void Draw(Sketch sketch, BarSlot slot, double top)
    {
        var spread = Lay(slot);
        for (var i = 0; i < slot.Bar.Sung.Length; i++)
        {
            var claim = slot.Bar.Sung[i];
            var width = sketch.Text(Shown(claim), spread.Lefts[i], top + 9, Face.NarrowStrong, Size * spread.Scale, Tint.Voice);
            var held = Math.Min(slot.End(claim) - 2, i + 1 < spread.Lefts.Length ? spread.Lefts[i + 1] - Gap : slot.InnerRight);
            if (held - spread.Lefts[i] - width > 6)
                sketch.Line(spread.Lefts[i] + width + 2, top + 9, held, top + 9, 0.6, Tint.Voice);
        }
        MarkHeard(sketch, slot, slot.Bar.Sung, top + 12.6);
    }

    private static Spread Lay(BarSlot slot) => Spread.Of(
        [.. slot.Bar.Sung.Select(s => slot.X(s.Start) - 1.5)],
        [.. slot.Bar.Sung.Select(s => FontBook.Width(Shown(s), Face.NarrowStrong, Size))],
        slot.InnerLeft, slot.InnerRight, Gap);

    /// <summary>"x" stands for a syllable whose rhythm alone is known.</summary>
    private static string Shown(Claim<string> claim) => claim.Value == "x" ? "×" : claim.Value;
}
