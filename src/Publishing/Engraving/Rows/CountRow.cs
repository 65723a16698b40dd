using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Publishing.Drawings;
using Harkbook.Units;

namespace Harkbook.Publishing.Engraving.Rows;

/// <summary>
/// The beat ruler that every other row hangs on: a tick for each beat, division and start, the counting words below,
/// strong in the voice's colour where a syllable begins.
/// </summary>
internal sealed class CountRow(Counting counting) : BarRow
{
    private const double WordSize = 7;
    private const double LeastGap = 7;

    public override string Label => "count";

    public override double Height => 17;

    public override double LabelBaseline => 13;

    public override bool Has(Bar bar) => true;

    public override bool Fits(BarSlot slot) => Words(slot).All(w => w.Shown);

    public override void Draw(Sketch sketch, BarSlot slot, double top)
    {
        sketch.Line(slot.Left, top + 3, slot.Right, top + 3, 0.6);
        foreach (var word in Words(slot))
        {
            DrawTick(sketch, word, top);
            if (word.Shown)
                DrawWord(sketch, word, top + 13);
        }
    }

    private sealed record Word(BarPlace Place, double X, bool IsSung, bool Shown);

    private static void DrawTick(Sketch sketch, Word word, double top)
    {
        var beat = word.Place.IsOnBeat;
        var tint = word.IsSung && !beat ? Tint.Voice : beat ? Tint.Ink : Tint.Line;
        var (above, below) = beat ? (0.2, 5.8) : word.IsSung ? (1, 5) : (1.6, 4.4);
        sketch.Line(word.X, top + above, word.X, top + below, beat ? 0.9 : 0.6, tint);
    }

    private void DrawWord(Sketch sketch, Word word, double baseline)
    {
        var beat = word.Place.IsOnBeat;
        var face = beat || word.IsSung ? Face.NarrowStrong : Face.Narrow;
        var tint = word.IsSung ? Tint.Voice : beat ? Tint.Ink : Tint.Quiet;
        sketch.Text(word.Place.Said(counting), word.X, baseline, face, beat ? WordSize + 0.6 : WordSize, tint, Align.Centre);
    }

    /// <summary>Beats claim their room first, then sung places, then the rest; a word without room leaves its tick alone.</summary>
    private ImmutableArray<Word> Words(BarSlot slot)
    {
        var sung = slot.Bar.Sung.Select(s => s.Start).ToHashSet();
        var taken = new List<double>();
        var words = new List<Word>();
        foreach (var place in Places(slot.Bar).OrderBy(p => p.IsOnBeat ? 0 : sung.Contains(p.Position) ? 1 : 2).ThenBy(p => p.Position))
        {
            var x = slot.X(place.Position);
            var free = taken.All(t => Math.Abs(t - x) >= LeastGap);
            if (free && place.Said(counting).Length > 0)
                taken.Add(x);
            words.Add(new(place, x, sung.Contains(place.Position), free || place.Said(counting).Length == 0));
        }
        return [.. words];
    }

    /// <summary>The meter's divisions, and every start that lies between them.</summary>
    private static IEnumerable<BarPlace> Places(Bar bar)
    {
        Beats[] starts = [.. bar.Sung.Select(s => s.Start), .. bar.Strums.Select(s => s.Start), .. bar.Picked.Select(p => p.Start),
            .. bar.Harp.Select(h => h.Start)];
        return BarPlace.Grid(bar.Meter, bar.Meter.DivisionsPerBeat)
            .Concat(starts.Where(s => s >= Beats.Zero && s < bar.Meter.BarLength).Select(s => BarPlace.Of(bar.Meter, s)))
            .DistinctBy(p => p.Position);
    }
}
