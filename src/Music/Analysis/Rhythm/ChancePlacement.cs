using System.Collections.Immutable;
using System.Numerics;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Rhythm;

/// <summary>
/// Compares a bar's syncopation with every other way to put as many starts on the same grid. It says how far the bar is from
/// chance, not what singers usually do.
/// </summary>
public static class ChancePlacement
{
    private const int MostSteps = 16;

    /// <summary>
    /// The share (0 to 1) of all placements that are less syncopated, half of those that are as much counted in. Null where the
    /// bar's starts lie on no grid of 16 steps or fewer, or no placement is less or more syncopated.
    /// </summary>
    public static double? ShareBelow(Meter meter, IReadOnlyCollection<Beats> onsets)
    {
        if (Grid(meter, onsets) is not { } perBeat)
            return null;
        var own = SyncopationRule.InBar(meter, onsets);
        var all = Placements(meter, perBeat, onsets.Count);
        var (below, same) = (all.Count(s => s < own), all.Count(s => s == own));
        return same == all.Length ? null : (below + same / 2.0) / all.Length;
    }

    private static int? Grid(Meter meter, IReadOnlyCollection<Beats> onsets)
    {
        int[] grids = [meter.DivisionsPerBeat, meter.DivisionsPerBeat * 2];
        return grids.Where(g => meter.BeatsPerBar * g <= MostSteps && onsets.All(o => g % o.Denominator == 0)).Select(g => (int?)g).FirstOrDefault();
    }

    private static ImmutableArray<int> Placements(Meter meter, int perBeat, int count)
    {
        var bar = new StepBar(meter, perBeat);
        return [.. Enumerable.Range(0, 1 << bar.Steps).Where(mask => BitOperations.PopCount((uint)mask) == count).Select(bar.Syncopation)];
    }
}
