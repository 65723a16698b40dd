using System.Collections.Immutable;
using Harkbook.Listening.Estimators;
using Harkbook.Listening.Estimators.SecondInstrument;
using Harkbook.Listening.Evaluation;
using Harkbook.Units;

namespace Harkbook.Training.SecondInstrument;

/// <summary>Scores the whole step on made-up pieces, kind by kind.</summary>
internal static class DuetScore
{
    public static int Run(IReadOnlyList<FontPlayer> fonts, int pieces, int seed, double length)
    {
        var estimator = new SecondInstrumentEstimator();
        var sheets = new List<(string Kind, ImmutableArray<Measured> Scores)>();
        for (var i = 0; i < pieces; i++)
        {
            var duet = DuetStore.Get(i, seed, fonts[i / 2 % fonts.Count], length);
            var heard = estimator.Estimate(duet.Sound, Hertz.A440, DuetTruth.Keys(duet), null, default);
            var scores = SecondInstrumentScores.Of(heard, Hertz.A440, DuetTruth.Of(duet)).ToImmutableArray();
            Console.WriteLine($"{duet.Name} {duet.Kind,-9} heard {heard.Kind.Best} {heard.Kind.Confidence:0.00} {(duet.Harp is null ? "" : $"harp {duet.Harp} p{duet.Position} heard {heard.Harp?.Best.Key} {heard.Harp?.Confidence:0.00}")} "
                + string.Join(" ", scores.Skip(1).Select(s => $"{Short(s.Measure)} {s.Value:0.00}")));
            sheets.Add((duet.Kind, scores));
        }
        foreach (var group in sheets.GroupBy(s => s.Kind))
            Console.WriteLine($"{group.Key} ({group.Count()}): " + string.Join(", ", Evaluator.Mean(group.Select(s => s.Scores)).Select(m => $"{m.Measure} {m.Value:0.000}")));
        return 0;
    }

    private static string Short(string measure) => string.Concat(measure.Split(' ').Select(w => w[..Math.Min(4, w.Length)]));
}
