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
    ];

    public static readonly ImmutableArray<double> Values = [2.127, 1.137, 0.576, -0.101, 0.056, -0.081, 0.683, 1.365, -7.029, -0.115, 2.441, -2.025, 0.07, 0.098, -0.039, 4.523];

    public static int Count => Names.Length + PitchProfiles.Kinds * 6 * (PitchProfiles.Last - PitchProfiles.First + 1);

    public static double LogLikelihood(double[] features) => features.Zip(Values, (f, w) => f * w).Sum();
}
