using System.Collections.Immutable;
using System.Globalization;

namespace Harkbook.Music.Instruments.Strings;

/// <summary>What tuning a string away from the pitch it was made for does to its tension, and when to be careful.</summary>
public static class TuningCare
{
    /// <summary>
    /// Tension against before: 2^(n/6), because tension grows with the square of frequency on the same string and scale
    /// (Mersenne's law).
    /// </summary>
    public static double TensionRatio(int semitones) => Math.Pow(2, semitones / 6.0);

    /// <summary>
    /// Whether a string can't be turned so far and another must be fitted: under about half of its tension it rattles, over one and a
    /// half times it may break (our judgement; a fourth down, as in open C, is common practice).
    /// </summary>
    public static bool NeedsAnotherString(int semitones) => semitones is < -5 or > 3;

    /// <summary>
    /// A caution for each string that a tuning raises above the one the strings were made for; none where all stay or go down.
    /// </summary>
    public static ImmutableArray<string> Cautions(Tuning tuning, Tuning madeFor) =>
        [.. tuning.ChangeFrom(madeFor)
            .Select((change, i) => (Change: change, Number: tuning.StringNumber(i)))
            .Where(s => s.Change > 0)
            .Select(s => string.Create(
                CultureInfo.InvariantCulture,
                $"String {s.Number} goes up {s.Change} {(s.Change == 1 ? "semitone" : "semitones")}: about {100 * (TensionRatio(s.Change) - 1):0} % more "
                    + $"tension, which loads the neck and may break the string. Turn your face away while tightening, use a lighter string, or tune the rest "
                    + $"down and put on a capo."))];
}
