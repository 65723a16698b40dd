using System.Collections.Immutable;

namespace Harkbook.Listening.Estimators.Beats.Levels;

/// <summary>What each feature of a level counts, in models/levels.json: log-odds for each unit.</summary>
/// <param name="Weights">In the order of <see cref="LevelFeatures.Names"/>.</param>
internal sealed record LevelModel(ImmutableArray<double> Weights)
{
    public static LevelModel Shipped { get; } = Of(FittedNumbers.Read<File>("levels.json"));

    /// <summary>How likely each of several levels of one recording is the one that people tap; the shares sum to 1.</summary>
    /// <param name="levels">The features of each.</param>
    public double[] Shares(IReadOnlyList<double[]> levels) => Softmax.Of([.. levels.Select(l => l.Zip(Weights, (x, w) => x * w).Sum())]);

    private static LevelModel Of(File file) => new([.. LevelFeatures.Names.Select(n => file.Weights[n])]);

    private sealed record File(Dictionary<string, double> Weights);
}
