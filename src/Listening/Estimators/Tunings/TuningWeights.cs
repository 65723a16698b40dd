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
        3.061, 0.614, 1.901, 1.121, -0.972, -0.056, -1.207, -0.147, -1.538, 0.178, 0.758, 0.652, 0.079, 0.067, 0.012, 2.378, -0.313, 0.688, 1.932, 0.757, 1.626,
        1.099, -0.448, 1.67, 0.699, 3.402, -0.426, 0.835, -0.107, 0.502, 0.304,
    ];

    public static int Count => Values.Length;

    /// <summary>A guitar sounds nothing below its lowest string; listening and a bass do. How much that weighs is our own judgement.</summary>
    private const double TooLow = 40, MostTooLow = 4;

    public static double LogLikelihood(TuningFit fit)
    {
        var sum = -Math.Min(MostTooLow, TooLow * fit.TooLow);
        for (var i = 0; i < Values.Length; i++)
            sum += Values[i] * fit.Features[i];
        return sum;
    }
}
