namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// How much the facts of <see cref="BeatLevelEvidence"/> count, alone and together: a conditional logit over the ways to hear one
/// piece, with eight hidden units for what facts mean only together (an off-beat chord means one thing over a bass on the beat,
/// another over none). Fitted to pieces with known beats; see docs/listening.md for which, and for what it reached on pieces left out.
/// </summary>
internal static class BeatLevelWeights
{
    public static double Score(double[] evidence)
    {
        var score = Sum(BeatLevelTable.Direct, evidence);
        for (var unit = 0; unit < BeatLevelTable.Units.Length; unit++)
            score += BeatLevelTable.Units[unit] * Math.Tanh(BeatLevelTable.Offsets[unit] + Sum(BeatLevelTable.Inputs[unit], evidence));
        return score;
    }

    private static double Sum(double[] weights, double[] evidence)
    {
        var sum = 0.0;
        for (var i = 0; i < evidence.Length; i++)
            sum += evidence[i] * weights[i];
        return sum;
    }
}
