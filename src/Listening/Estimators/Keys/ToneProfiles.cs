namespace Harkbook.Listening.Estimators.Keys;

/// <summary>How much each degree of a key is used, from the tonic up in semitones.</summary>
internal static class ToneProfiles
{
    /// <summary>D. Temperley, "What's key for key?", Music Perception 17 (1999), revised.</summary>
    public static double[] TemperleyMajor { get; } = [5.0, 2.0, 3.5, 2.0, 4.5, 4.0, 2.0, 4.5, 2.0, 3.5, 1.5, 4.0];

    public static double[] TemperleyMinor { get; } = [5.0, 2.0, 3.5, 4.5, 2.0, 4.0, 2.0, 4.5, 3.5, 2.0, 1.5, 4.0];

    /// <summary>J. Albrecht and D. Shanahan, "The use of large corpora to train a new type of key-finding algorithm", Music Perception 31 (2013).</summary>
    public static double[] AlbrechtMajor { get; } = [.238, .006, .111, .006, .137, .094, .016, .214, .009, .080, .008, .081];

    public static double[] AlbrechtMinor { get; } = [.220, .006, .104, .123, .019, .103, .012, .214, .062, .022, .061, .052];

    /// <summary>Pearson's correlation of pitch-class amounts with a profile moved to a tonic.</summary>
    public static double Correlation(ReadOnlySpan<double> amounts, double[] profile, int tonic)
    {
        var (meanA, meanP) = (0.0, profile.Average());
        foreach (var a in amounts)
            meanA += a / 12;
        var (cross, squareA, squareP) = (0.0, 0.0, 0.0);
        for (var pc = 0; pc < 12; pc++)
        {
            var (a, p) = (amounts[pc] - meanA, profile[(pc - tonic + 12) % 12] - meanP);
            (cross, squareA, squareP) = (cross + a * p, squareA + a * a, squareP + p * p);
        }
        return squareA > 0 ? cross / Math.Sqrt(squareA * squareP) : 0;
    }
}
