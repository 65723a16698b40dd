using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Engraving;

/// <summary>Chord names where they begin, under a capo the song's own of the two; one that only goes on from the bar before is quiet.</summary>
internal sealed class ChordRow : BarRow
{
    private readonly Dictionary<Bar, string> before = new(ReferenceEqualityComparer.Instance);
    private readonly CapoNames? names;
    private readonly double size;

    public ChordRow(IEnumerable<Bar> song, CapoNames? names = null, double size = 13)
    {
        (this.names, this.size) = (names, size);
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
        slot.Bar.Chords.Select((c, i) => ChordLettering.Of(Shown(c.Value.Name), size).Width <= Room(slot, i) / 0.8).All(fits => fits);

    public override void Draw(Sketch sketch, BarSlot slot, double top)
    {
        for (var i = 0; i < slot.Bar.Chords.Length; i++)
        {
            var claim = slot.Bar.Chords[i];
            var tint = GoesOn(slot.Bar, i) ? Tint.Quiet : Tint.Hand;
            var name = ChordLettering.Fitting(Shown(claim.Value.Name), size, Room(slot, i), 0.1, tint);
            var left = slot.X(claim.Start);
            name.Draw(sketch, left, top + size);
            if (claim.Standing.Kind == StandingKind.Heard)
                sketch.Dots(left, Math.Min(left + name.Width, left + Room(slot, i)), top + size + 3, 0.9);
        }
    }

    /// <summary>Whether a bar's chord only goes on from the bar before.</summary>
    internal bool GoesOn(Bar bar, int index) => index == 0 && before.GetValueOrDefault(bar) == bar.Chords[0].Value.Name;

    private string Shown(string name) => names?.First(name) ?? name;

    internal static double Room(BarSlot slot, int index)
    {
        var chords = slot.Bar.Chords;
        var right = index + 1 < chords.Length ? slot.X(chords[index + 1].Start) - 2.5 : slot.InnerRight;
        return Math.Max(1, right - slot.X(chords[index].Start));
    }
}
