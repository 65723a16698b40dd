using Harkbook.Units;

namespace Harkbook.Music.Songs;

/// <summary>
/// How long picked notes ring: as long as they are claimed, but not past a change to a shape that holds their string otherwise,
/// since the hand leaves then; one that is let ring does.
/// </summary>
public sealed class Ringing
{
    private readonly Dictionary<int, Beats> startOf = [];
    private readonly List<(Beats Start, Instruments.Shapes.Shape Shape)> shapes = [];

    public Ringing(Song song)
    {
        var start = Beats.Zero;
        foreach (var bar in song.Bars)
        {
            startOf[bar.Number] = start;
            shapes.AddRange(bar.Chords.Where(c => c.Value.Shape is not null).Select(c => (start + c.Start, c.Value.Shape!)));
            start += bar.Meter.BarLength;
        }
    }

    public Beats LengthOf(Bar bar, Claim<PickedNote> claim)
    {
        var from = startOf[bar.Number] + claim.Start;
        if (claim.Value.LetsRing)
            return claim.Length;
        for (var i = After(from); i < shapes.Count && shapes[i].Start < from + claim.Length; i++)
        {
            var frets = shapes[i].Shape.Frets;
            if (claim.Value.StringIndex < frets.Length && frets[claim.Value.StringIndex] != claim.Value.Fret)
                return shapes[i].Start - from;
        }
        return claim.Length;
    }

    /// <summary>The first shape that starts after a place.</summary>
    private int After(Beats place)
    {
        var (low, high) = (0, shapes.Count);
        while (low < high)
        {
            var middle = (low + high) / 2;
            (low, high) = shapes[middle].Start > place ? (low, middle) : (middle + 1, high);
        }
        return low;
    }
}
