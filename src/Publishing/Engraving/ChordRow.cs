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

    public override bool Fits(BarPlace place) =>
        place.Bar.Chords.Select((c, i) => ChordName.Of(c.Value.Name, size).Width <= Room(place, i) / 0.8).All(fits => fits);

    public override void Draw(Sketch sketch, BarPlace place, double top)
    {
        for (var i = 0; i < place.Bar.Chords.Length; i++)
        {
            var claim = place.Bar.Chords[i];
            var tint = i == 0 && before.GetValueOrDefault(place.Bar) == claim.Value.Name ? Tint.Quiet : Tint.Hand;
            var name = ChordName.Fitting(claim.Value.Name, size, Room(place, i), 0.1, tint);
            var left = place.X(claim.Start);
            name.Draw(sketch, left, top + size);
            if (claim.Standing.Kind == StandingKind.Heard)
                sketch.Dots(left, Math.Min(left + name.Width, left + Room(place, i)), top + size + 3, 0.9);
        }
    }

    private static double Room(BarPlace place, int index)
    {
        var chords = place.Bar.Chords;
        var right = index + 1 < chords.Length ? place.X(chords[index + 1].Start) - 2.5 : place.InnerRight;
        return Math.Max(1, right - place.X(chords[index].Start));
    }
}
