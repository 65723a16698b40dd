using Harkbook.Music.Theory;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>Ranks the meters over one grid of beats, and places the downbeats, letting a bar be cut short or drawn out where the sound insists.</summary>
internal static class BarTracker
{
    /// <summary>What one irregular bar costs, in the units of <see cref="BarWeights"/>; more than chance accents can buy.</summary>
    private const double IrregularBar = 6;

    /// <summary>Every meter with its share (all shares sum to 1) and the best place of the first downbeat.</summary>
    public static List<(Meter Meter, double Share, int Phase)> Rank(BeatGrid grid)
    {
        var scored = BarEvidence.Meters
            .SelectMany(m => Enumerable.Range(0, m.BeatsPerBar).Select(p => (Meter: m, Phase: p, Score: BarWeights.Score(BarEvidence.Of(grid, m, p)))))
            .ToList();
        var shares = Softmax.Of([.. scored.Select(s => s.Score)]);
        return [.. scored.Select((s, i) => (s.Meter, s.Phase, Share: shares[i]))
            .GroupBy(s => s.Meter)
            .Select(g => (g.Key, g.Sum(s => s.Share), g.MaxBy(s => s.Share).Phase))
            .OrderByDescending(m => m.Item2)];
    }

    /// <summary>The position in the bar of every beat, 1 for a downbeat.</summary>
    public static int[] Positions(BeatGrid grid, Meter meter)
    {
        var bar = meter.BeatsPerBar;
        var local = LocalScores(grid, bar);
        var from = new int[local.Length, bar];
        var best = (double[])local[0].Clone();
        for (var k = 1; k < local.Length; k++)
            best = Step(best, local[k], from, k);
        return Trace(best, from, local.Length);
    }

    private static double[] Step(double[] best, double[] local, int[,] from, int k)
    {
        var bar = local.Length;
        var leader = Array.IndexOf(best, best.Max());
        var next = new double[bar];
        for (var position = 0; position < bar; position++)
        {
            var regular = (position + bar - 1) % bar;
            var jump = position == 0 && best[leader] - IrregularBar > best[regular];
            from[k, position] = jump ? leader : regular;
            next[position] = local[position] + (jump ? best[leader] - IrregularBar : best[regular]);
        }
        return next;
    }

    private static int[] Trace(double[] best, int[,] from, int beats)
    {
        var positions = new int[beats];
        var position = Array.IndexOf(best, best.Max());
        for (var k = beats - 1; k >= 0; k--)
        {
            positions[k] = position + 1;
            position = from[k, position];
        }
        return positions;
    }

    /// <summary>Shape (beats, positions): the share of each beat in the score of the whole, were it at that position.</summary>
    private static double[][] LocalScores(BeatGrid grid, int bar)
    {
        var on = grid.At(0);
        var beats = grid.Times.Length;
        var scores = new double[beats][];
        for (var k = 0; k < beats; k++)
        {
            scores[k] = new double[bar];
            for (var position = 0; position < bar; position++)
                scores[k][position] = Enumerable.Range(0, CueTable.Cues).Sum(cue =>
                    BarWeights.Pull(bar, position, cue) * (on.Values[cue][k] - on.Mean(cue)) / on.Spread(cue)) * bar / beats;
        }
        AddEarly(scores, grid, bar, CueTable.Harmony);
        AddEarly(scores, grid, bar, CueTable.All);
        scores[0][0] += grid.Placement.BeginsOnBeat ? BarWeights.Begins : 0;
        scores[^1][0] += grid.Placement.EndsOnBeat ? BarWeights.Ends : 0;
        return scores;
    }

    /// <summary>What happens half a beat before each beat, for or against that beat's being a downbeat that was played early.</summary>
    private static void AddEarly(double[][] scores, BeatGrid grid, int bar, int cue)
    {
        var half = grid.At(0.5);
        for (var k = 1; k < scores.Length; k++)
        {
            var pull = BarWeights.Early(cue) * (half.Values[cue][k - 1] - half.Mean(cue)) / half.Spread(cue) * bar / scores.Length;
            for (var position = 0; position < bar; position++)
                scores[k][position] += position == 0 ? pull : -pull / (bar - 1);
        }
    }
}
