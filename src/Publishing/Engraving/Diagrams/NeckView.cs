using System.Collections.Immutable;
using Harkbook.Music.Instruments.Shapes;

namespace Harkbook.Publishing.Engraving.Diagrams;

/// <summary>A finger across neighbouring strings (indices from the low side) at one fret of the picture.</summary>
internal sealed record DrawnBarre(int Fret, int LowString, int HighString, int Finger);

/// <summary>One string stopped at a fret of the picture; finger 0 where unknown.</summary>
internal sealed record Stop(int String, int Fret, int Finger);

/// <summary>
/// The part of a neck that a shape needs. Under a capo over all strings, frets count from the capo and the capo is the
/// picture's nut; under a partial capo the picture counts from the real nut, since the free strings do.
/// </summary>
internal sealed class NeckView
{
    private NeckView(ChordDiagramSubject subject, int fewest)
    {
        var (shape, capo) = (subject.Shape, subject.Capo);
        Stops = [.. shape.Frets.Select((fret, i) => (fret, i)).Where(s => s.fret > 0).Select(s =>
            new Stop(s.i, capo.Printed(s.i, s.fret!.Value), FingerOf(shape, s.i)))];
        Barres = [.. FindBarres(shape, Stops)];
        CapoFret = capo is { IsPartial: true, Fret: > 0 } ? capo.Fret : null;
        var used = Stops.Select(s => s.Fret).Concat(CapoFret is { } c ? [c] : []).ToArray();
        var (low, high) = used.Length == 0 ? (1, 1) : (used.Min(), used.Max());
        FirstFret = high <= fewest ? 1 : low;
        Frets = Math.Max(fewest, high - FirstFret + 1);
    }

    public ImmutableArray<Stop> Stops { get; }

    public ImmutableArray<DrawnBarre> Barres { get; }

    /// <summary>Where a partial capo sits in the picture.</summary>
    public int? CapoFret { get; }

    /// <summary>The first fret shown; 1 when the picture starts at the nut or capo.</summary>
    public int FirstFret { get; }

    public int Frets { get; }

    public static NeckView Of(ChordDiagramSubject subject, int fewestFrets) => new(subject, fewestFrets);

    public bool IsUnderBarre(Stop stop) => Barres.Any(b => b.Fret == stop.Fret && stop.String >= b.LowString && stop.String <= b.HighString);

    private static int FingerOf(Shape shape, int stringIndex) => shape.Fingers.IsEmpty ? 0 : shape.Fingers[stringIndex];

    /// <summary>One finger on two strings or more of a fret lies flat; an open or lower-stopped string inside would not sound under it.</summary>
    private static IEnumerable<DrawnBarre> FindBarres(Shape shape, ImmutableArray<Stop> stops)
    {
        foreach (var finger in stops.Where(s => s.Finger > 0).GroupBy(s => (s.Finger, s.Fret)).Where(g => g.Count() > 1))
        {
            var (from, to) = (finger.Min(s => s.String), finger.Max(s => s.String));
            var inside = Enumerable.Range(from, to - from + 1);
            if (inside.All(i => shape.Frets[i] is null || stops.Any(s => s.String == i && s.Fret >= finger.Key.Fret)))
                yield return new(finger.Key.Fret, from, to, finger.Key.Finger);
        }
    }
}
