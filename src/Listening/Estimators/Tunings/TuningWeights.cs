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
        3.07, 0.581, 1.861, 1.37, -1.03, -0.006, -1.679, -0.195, -1.684, -0.017, 0.565, 0.441, 0.053, 0.191, -0.026, 2.271, -0.154, 1.051, 1.459, 0.756, 1.357,
        1.484, 0.46, 1.191, 1.394, 3.693, -0.091, -0.376, 0.159, 0.563, -0.099,
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
