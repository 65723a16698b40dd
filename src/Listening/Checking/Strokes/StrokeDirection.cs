using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Checking.Strokes;

/// <summary>Which way the hand goes, by the order in which the strings speak and by which of them do.</summary>
internal sealed class StrokeDirection(StrokeFeatures features)
{
    /// <summary>
    /// Before any stroke of a recording is looked at, its order is taken to mislead in one stroke of twenty, as if twenty had shown it. Chosen: the share
    /// of claims that a check takes to be wrong at most. The weights were fitted where it hardly ever misleads.
    /// </summary>
    private const double Misled = 0.05, Looked = 20;

    private readonly WeigherModel model = WeigherModel.Of("Direction");

    /// <summary>For the hand going as is claimed.</summary>
    public double LogOdds(StrokeClaim claim) => model.LogOdds(features.Direction(claim));

    /// <summary>How much rather down than up, in log-odds.</summary>
    public double Downward(StrokeClaim claim) =>
        (LogOdds(claim with { Stroke = Stroke.Down }) - LogOdds(claim with { Stroke = Stroke.Up })) / 2;

    /// <summary>
    /// In what share of a recording's strokes the order misleads (0–0.5), by how often it contradicts itself: in the same place of its bars a section's hand
    /// goes the same way. Two strokes disagree where one of them misleads, 2 · share · (1 − share). What is claimed has no say.
    /// </summary>
    /// <param name="alike">Of each place of each section its strokes, as <see cref="Downward"/> tells them.</param>
    public static double ShareMisled(IEnumerable<IReadOnlyCollection<double>> alike)
    {
        var (disagree, strokes) = (Looked * 2 * Misled * (1 - Misled), Looked);
        foreach (var place in alike)
        {
            double[] ways = [.. place.Select(down => 2 * Listening.LogOdds.Chance(down) - 1)];
            var (sure, sum, squares) = (ways.Sum(Math.Abs), ways.Sum(), ways.Sum(w => w * w));
            var pairs = sure * sure - squares;
            if (pairs <= 1e-9)
                continue;
            disagree += sure * (1 - (sum * sum - squares) / pairs) / 2;
            strokes += sure;
        }
        return (1 - Math.Sqrt(Math.Max(0, 1 - 2 * disagree / strokes))) / 2;
    }

    /// <summary>Log-odds that mislead in a share of cases: however clear, they say no more than that share leaves.</summary>
    public static double Misleading(double logOdds, double share)
    {
        var chance = Listening.LogOdds.Chance(logOdds);
        return Math.Log((chance + share * (1 - 2 * chance)) / (1 - chance + share * (2 * chance - 1)));
    }
}
