using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Listening;
using Harkbook.Listening.Estimators.Beats;
using Harkbook.Listening.Estimators.Beats.Rows;
using Harkbook.Listening.Evaluation;
using Harkbook.Listening.Interchange;

namespace Harkbook.Training.BeatChecks;

/// <summary>Beats and downbeats of a folder against its truth, and of the wrong downbeats what is wrong.</summary>
internal static class ScoreTable
{
    public const double From = 2;

    public static async Task WriteAsync(string folder, IEnumerable<string> waves, BeatModel model, TextWriter output)
    {
        var rows = new List<(double Beat, double Down, string Kind)>();
        var sure = new List<(double Confidence, bool Right)>();
        foreach (var wave in waves)
        {
            var piece = await HeardPiece.OfAsync(wave);
            if (piece.Truth.Count(b => b.Time >= From) < 4)
                continue;
            var beats = Beats(piece, model);
            var row = Score(beats, piece.Truth);
            rows.Add(row);
            sure.AddRange(Judged(beats, piece.Truth));
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {row.Beat:0.00} {row.Down:0.00} {row.Kind,-14} {piece.Name}"));
        }
        if (rows.Count == 0)
            return;
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{folder}: {rows.Count} beat {rows.Average(r => r.Beat):0.000} downbeat {rows.Average(r => r.Down):0.000}; lost downbeat F by kind: ")
            + string.Join(", ", rows.GroupBy(r => r.Kind).OrderByDescending(g => g.Sum(r => 1 - r.Down)).Select(g => string.Create(CultureInfo.InvariantCulture, $"{g.Key} {g.Sum(r => 1 - r.Down) / rows.Count:0.000} ({g.Count()})"))));
        var bounds = new[] { 0, .3, .5, .7, .8, .9, 1.01 };
        output.WriteLine("  sure: " + string.Join("; ", bounds.Zip(bounds.Skip(1)).Select(b => (b, In: sure.Where(s => s.Confidence >= b.First && s.Confidence < b.Second).ToArray())).Where(b => b.In.Length > 0)
            .Select(b => string.Create(CultureInfo.InvariantCulture, $"{b.b.First:0.0}+ {b.In.Average(s => s.Right ? 1.0 : 0):0.00} of {b.In.Length}"))));
    }

    internal static ImmutableArray<HeardBeat> Beats(HeardPiece piece, BeatModel model) =>
        new BeatEstimator().Read(new(piece.Sound, piece.Notes, model), Claims.None, default).Beats;

    private static IEnumerable<(double, bool)> Judged(ImmutableArray<HeardBeat> beats, ImmutableArray<AnnotatedBeat> truth) =>
        beats.Where(b => b.Time.Value >= From && b.Time.Value <= truth[^1].Time + 0.1).Select(b => (b.Confidence, truth.Any(t => Math.Abs(t.Time - b.Time.Value) <= 0.07)));

    private static (double Beat, double Down, string Kind) Score(ImmutableArray<HeardBeat> beats, ImmutableArray<AnnotatedBeat> truth)
    {
        var beat = F(truth.Select(b => b.Time), beats.Select(b => b.Time.Value));
        var down = F(truth.Where(b => b.PositionInBar == 1).Select(b => b.Time), beats.Where(b => b.PositionInBar == 1).Select(b => b.Time.Value));
        return (beat, down, Kind(beat, down, beats, truth));
    }

    private static string Kind(double beat, double down, ImmutableArray<HeardBeat> beats, ImmutableArray<AnnotatedBeat> truth)
    {
        if (down >= 0.9)
            return "right";
        var ratio = Gap(beats.Select(b => b.Time.Value)) / Gap(truth.Select(b => b.Time));
        if (beat < 0.8)
            return Math.Abs(ratio - 0.5) < 0.06 ? "twice" : Math.Abs(ratio - 2) < 0.2 ? "half" : Math.Abs(ratio - 1) < 0.06 ? "between beats" : "other tempo";
        var (heard, real) = (Length(beats.Select(b => b.PositionInBar)), Length(truth.Select(b => b.PositionInBar ?? 1)));
        return heard == real ? "phase" : $"meter {heard} for {real}";
    }

    private static double Gap(IEnumerable<double> times)
    {
        var all = times.ToArray();
        var gaps = all.Skip(1).Zip(all, (b, a) => b - a).Order().ToArray();
        return gaps.Length == 0 ? 0 : gaps[gaps.Length / 2];
    }

    /// <summary>How many beats most bars have.</summary>
    private static int Length(IEnumerable<int> positions)
    {
        var all = positions.ToArray();
        var starts = Enumerable.Range(0, all.Length).Where(i => all[i] == 1).ToArray();
        return starts.Skip(1).Zip(starts, (b, a) => b - a).GroupBy(n => n).OrderByDescending(g => g.Count() * g.Key).Select(g => g.Key).FirstOrDefault();
    }

    private static double F(IEnumerable<double> truth, IEnumerable<double> heard) =>
        BeatScores.FMeasure(BeatScores.Trimmed(truth, From), BeatScores.Trimmed(heard, From)).F;
}
