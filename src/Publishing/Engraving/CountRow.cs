using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Units;

namespace Harkbook.Publishing.Engraving;

/// <summary>
/// The beat ruler that every other row hangs on: a tick a count, the counting words below, strong in the voice's colour
/// where a syllable begins.
/// </summary>
internal sealed class CountRow : BarRow
{
    private const double WordSize = 7;
    private const double LeastGap = 6;

    public override string Label => "count";

    public override double Height => 17;

    public override double LabelBaseline => 13;

    public override bool Has(Bar bar) => true;

    public override bool Fits(BarPlace place) => SmallestGap(place, Counts(place.Bar)) >= LeastGap + 1;

    public override void Draw(Sketch sketch, BarPlace place, double top)
    {
        var counts = Counts(place.Bar);
        var crowded = SmallestGap(place, counts) < LeastGap;
        var sung = place.Bar.Sung.Select(s => s.Start).ToHashSet();
        sketch.Line(place.Left, top + 3, place.Right, top + 3, 0.6);
        foreach (var count in counts)
        {
            var x = place.X(count.At);
            sketch.Line(x, top + (count.IsBeat ? 0.2 : 1.6), x, top + (count.IsBeat ? 5.8 : 4.4), count.IsBeat ? 0.9 : 0.6, count.IsBeat ? Tint.Ink : Tint.Line);
            if (!crowded || count.IsBeat)
                DrawWord(sketch, count, sung.Contains(count.At), x, top + 13);
        }
        DrawUncounted(sketch, place, sung, counts.Select(c => c.At).ToHashSet(), top);
    }

    private static void DrawWord(Sketch sketch, Count count, bool isSung, double x, double baseline)
    {
        var face = count.IsBeat || isSung ? Face.NarrowStrong : Face.Narrow;
        var tint = isSung ? Tint.Voice : count.IsBeat ? Tint.Ink : Tint.Quiet;
        sketch.Text(count.Word, x, baseline, face, count.IsBeat ? WordSize + 0.6 : WordSize, tint, Align.Centre);
    }

    /// <summary>Starts that no counting word names, as triplets in a simple meter: a tick alone.</summary>
    private static void DrawUncounted(Sketch sketch, BarPlace place, HashSet<Beats> sung, HashSet<Beats> counted, double top)
    {
        foreach (var at in sung.Where(s => !counted.Contains(s)).Order())
            sketch.Line(place.X(at), top + 1.6, place.X(at), top + 5.8, 0.9, Tint.Voice);
    }

    private static System.Collections.Immutable.ImmutableArray<Count> Counts(Bar bar) =>
        Counting.Of(bar.Meter, [.. bar.Sung.Select(s => s.Start), .. bar.Strums.Select(s => s.Start), .. bar.Picked.Select(p => p.Start), .. bar.Harp.Select(h => h.Start)]);

    private static double SmallestGap(BarPlace place, System.Collections.Immutable.ImmutableArray<Count> counts) =>
        counts.Length < 2 ? double.MaxValue : counts.Skip(1).Zip(counts, (b, a) => place.X(b.At) - place.X(a.At)).Min();
}
