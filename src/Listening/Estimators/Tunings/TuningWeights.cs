using System.Collections.Immutable;

namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>
/// What each figure of a <see cref="TuningFit"/> says about the tuning: natural logarithms, fitted on made pieces (training/Fretting) as a
/// conditional logit (McFadden 1974) in which every tuning was as usual as another.
/// </summary>
internal static class TuningWeights
{
    /// <summary>Repeats tell little, so a long piece counts as no more notes than this.</summary>
    public const int MostNotes = 200;

    public static readonly ImmutableArray<string> Names =
    [
        "ease of the hand", "unplaced", "open", "open strings heard", "open strings heard, log", "low frets", "pitches", "key", "chords on open strings",
        "floor", "too low", "strings used", "ease of chords", "left out of chords", "open in chords", "open notes longer",
        .. PitchProfiles.Names,
    ];

    public static readonly ImmutableArray<double> Values =
    [
        3.091, 0.323, 1.809, 1.249, -0.831, -0.01, -1.585, -0.096, -2.303, -0.068, 0.527, 0.352, 0.3, 0.155, -0.019, 2.536, 0.109, 0.995, 1.532, 0.936,
        1.235, 1.395, 0.72, 1.186, 1.216, 3.427, 0.098, -0.434, 0.312, 0.482, 0.19,
    ];

    public static int Count => Values.Length;

    public static double LogLikelihood(double[] features) => features.Zip(Values, (f, w) => f * w).Sum();
}
