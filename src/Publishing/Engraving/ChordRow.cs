using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Engraving;

/// <summary>Chord names where they begin; one that only goes on from the bar before is quiet.</summary>
internal sealed class ChordRow(double size = 13) : BarRow
{
    private readonly Dictionary<Bar, string> before = new(ReferenceEqualityComparer.Instance);

    public ChordRow(IEnumerable<Bar> song, double size = 13) : this(size)
    {
        var last = "";
        foreach (var bar in song)
        {
            before[bar] = last;
            last = bar.Chords.IsEmpty ? "" : bar.Chords[^1].Value.Name;
        }
    }

    public override string Label => "chords";

    public override double Height => size * 1.5;

    public override double LabelBaseline => size;

    public override bool Has(Bar bar) => !bar.Chords.IsEmpty;

    public override bool Fits(BarSlot slot) =>
        slot.Bar.Chords.Select((c, i) => ChordLettering.Of(c.Value.Name, size).Width <= Room(slot, i) / 0.8).All(fits => fits);

    public override void Draw(Sketch sketch, BarSlot slot, double top)
    {
        for (var i = 0; i < slot.Bar.Chords.Length; i++)
        {
            var claim = slot.Bar.Chords[i];
            var tint = i == 0 && before.GetValueOrDefault(slot.Bar) == claim.Value.Name ? Tint.Quiet : Tint.Hand;
            var name = ChordLettering.Fitting(claim.Value.Name, size, Room(slot, i), 0.1, tint);
            var left = slot.X(claim.Start);
            name.Draw(sketch, left, top + size);
            if (claim.Standing.Kind == StandingKind.Heard)
                sketch.Dots(left, Math.Min(left + name.Width, left + Room(slot, i)), top + size + 3, 0.9);
        }
    }

    private static double Room(BarSlot slot, int index)
    {
        var chords = slot.Bar.Chords;
        var right = index + 1 < chords.Length ? slot.X(chords[index + 1].Start) - 2.5 : slot.InnerRight;
        return Math.Max(1, right - slot.X(chords[index].Start));
    }
}
