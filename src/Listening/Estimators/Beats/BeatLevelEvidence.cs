using Harkbook.Music.Theory;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// The facts by which one way to hear the beat is preferred to another at half or double the speed, or half a beat away:
/// each is a number of order 1, and <see cref="BeatLevelWeights"/> says how much each counts.
/// </summary>
internal static class BeatLevelEvidence
{
    public static double[] Of(BeatGrid grid)
    {
        var anywhere = grid.Anywhere();
        var spread = Enumerable.Range(0, CueTable.Cues).Select(anywhere.Spread).ToArray();
        double Rise(CueTable a, CueTable b, int cue) => (a.Mean(cue) - b.Mean(cue)) / spread[cue];
        var (on, half) = (grid.At(0), grid.At(0.5));
        var (third, twoThirds) = (grid.At(1 / 3.0), grid.At(2 / 3.0));
        var (quarter, threeQuarters) = (grid.At(0.25), grid.At(0.75));
        var values = new List<double>();
        for (var cue = 0; cue < CueTable.Cues; cue++)
        {
            values.Add(Rise(on, anywhere, cue));
            values.Add(Rise(on, half, cue));
            values.Add(0.5 * (Rise(on, third, cue) + Rise(on, twoThirds, cue)));
        }
        values.Add(Rise(third, half, CueTable.All));
        values.Add(Rise(twoThirds, half, CueTable.All));
        values.Add(0.5 * (Rise(quarter, anywhere, CueTable.All) + Rise(threeQuarters, anywhere, CueTable.All)));
        values.Add(Rise(threeQuarters, quarter, CueTable.All));
        for (var cue = 0; cue < CueTable.Cues; cue++)
        {
            foreach (var period in (int[])[2, 3, 4])
                values.Add(Enumerable.Range(0, period).Max(phase => on.Accent(cue, period, phase)) / spread[cue]);
        }
        values.Add(-on.Accent(CueTable.Low, 2, 0) * on.Accent(CueTable.High, 2, 0) / spread[CueTable.Low] / spread[CueTable.High]);
        values.Add(Enumerable.Range(0, 4).Max(p => on.Accent(CueTable.Low, 4, p) + on.Accent(CueTable.Harmony, 4, p)));
        values.Add(Enumerable.Range(0, 3).Max(p => on.Accent(CueTable.Low, 3, p) + on.Accent(CueTable.Harmony, 3, p)));
        values.Add(grid.PulseScore);
        values.AddRange(BarEvidence.Meters.Select(m => Distinctness(grid, m)));
        AddTempo(values, Math.Log2(grid.BeatsPerMinute / 108), Rise(on, half, CueTable.All), Rise(on, anywhere, CueTable.All));
        AddPlacement(values, grid.Placement);
        return [.. values];
    }

    /// <summary>How much the best place of the downbeat stands out among the places it could have.</summary>
    private static double Distinctness(BeatGrid grid, Meter meter)
    {
        var scores = Enumerable.Range(0, meter.BeatsPerBar).Select(p => BarWeights.Score(BarEvidence.Of(grid, meter, p))).ToArray();
        return Math.Sqrt(Math.Max(0, scores.Max() - scores.Average()));
    }

    private static void AddPlacement(List<double> values, Placement placement)
    {
        values.AddRange([placement.Beats, placement.Halves, placement.Quarters, placement.Thirds, placement.TwoThirds]);
        values.AddRange([placement.HeldOver, placement.Held, placement.Alone]);
        values.AddRange([placement.Starts, placement.Ends, 10 * placement.Unsteadiness]);
    }

    private static void AddTempo(List<double> values, double octaves, double overHalf, double overAll)
    {
        values.Add(octaves);
        values.Add(octaves * octaves);
        values.Add(Math.Max(0, octaves - 0.4) * 3);
        values.Add(Math.Max(0, -octaves - 0.4) * 3);
        values.Add(octaves * overHalf);
        values.Add(octaves * overAll);
    }
}
