namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// How much each fact of <see cref="BarEvidence"/> counts: a conditional logit fitted to pieces with known downbeats;
/// docs/listening.md says which.
/// </summary>
internal static class BarWeights
{
    private static readonly double[] Weights =
    [
        0.628, -0.117, -0.082, -0.556, 0.633, 0.736, -0.428, 0.705, // first over third beat of four: all, bass, middle, treble, harmony, length, stroke, bass note
        0.212, 0.459, -0.252, -0.674, 0.666, 0.380, -0.071, 0.474, // strong over weak beats of two or four
        0.484, 1.240, 0.797, -3.224, 2.038, 0.514, -1.966, 2.423, // first over the other beats of three
        -2.536, -0.556, // three: itself, with octaves of tempo
        -2.518, -1.613, 1.177, 0.386, // compound: itself, with octaves of tempo, first and second third over the half
        -2.620, // two
        1.398, 0.984, // the music begins, ends on a downbeat
        0.211, 0.209, // half a beat before the downbeat: harmony, all
    ];

    /// <summary>What it adds that the music begins on a downbeat.</summary>
    public static double Begins => Weights[^4];

    /// <summary>What it adds that the last onset is a downbeat.</summary>
    public static double Ends => Weights[^3];

    /// <summary>What one unit of a cue half a beat before the downbeat adds.</summary>
    public static double Early(int cue) => cue == CueTable.Harmony ? Weights[^2] : Weights[^1];

    public static double Score(double[] evidence)
    {
        var score = 0.0;
        for (var i = 0; i < Weights.Length; i++)
            score += evidence[i] * Weights[i];
        return score;
    }

    /// <summary>What one unit of a cue on one beat adds to the score when the beat has this position in the bar.</summary>
    public static double Pull(int bar, int position, int cue)
    {
        var (third, strong, three) = (Weights[cue], Weights[CueTable.Cues + cue], Weights[2 * CueTable.Cues + cue]);
        return bar switch
        {
            3 => position == 0 ? three : -three / 2,
            4 => (position % 2 == 0 ? strong : -strong) / 2 + (0.75 * (position == 0 ? third : position == 2 ? -third : 0)),
            _ => position == 0 ? strong : -strong,
        };
    }
}
