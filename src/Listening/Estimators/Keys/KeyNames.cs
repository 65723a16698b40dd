using System.Globalization;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Estimators.Keys;

/// <summary>Names keys from what is known of their tonic and third, with modes of the same tonic as runners-up.</summary>
internal static class KeyNames
{
    private const double MostForMode = 0.45;
    private const double LeastForMode = 0.15;
    private const int Kept = 5;

    /// <summary>Where no notes sound.</summary>
    public static Distribution<Key> Nothing { get; } = new(new Candidate<Key>(new KeyCandidate(0).In(Mode.Major), 0, "No notes were heard, so no key shows."));

    /// <param name="posteriors">One a <see cref="KeyCandidate"/>.</param>
    /// <param name="amounts">How much of each pitch class sounds, C first.</param>
    public static Distribution<Key> Rank(double[] posteriors, double[] amounts) => new([.. KeyCandidate.All
        .OrderByDescending(k => posteriors[k.Index]).Take(Kept)
        .SelectMany(k => WithModes(k, posteriors[k.Index], amounts))
        .OrderByDescending(c => c.Confidence).Take(Kept + 1)]);

    /// <summary>Splits a key's chance with the mode that differs in one note, by which of the two notes is used more.</summary>
    private static IEnumerable<Candidate<Key>> WithModes(KeyCandidate key, double chance, double[] amounts)
    {
        var (own, other, mode, words) = key.IsMinor ? (8, 9, Mode.Dorian, "raised sixth") : (11, 10, Mode.Mixolydian, "lowered seventh");
        var (a, b) = (amounts[(key.Tonic + own) % 12], amounts[(key.Tonic + other) % 12]);
        var share = a + b > 0 ? Math.Min(MostForMode, b / (a + b)) : 0;
        yield return new(key.In(key.Mode), chance * (1 - share), string.Create(CultureInfo.InvariantCulture,
            $"The notes match the key's profile by {Fit(amounts, key):0.00} of 1; the keynote takes {amounts[key.Tonic] / amounts.Sum():0%} of the sound."));
        if (share > LeastForMode)
        {
            yield return new(key.In(mode), chance * share, string.Create(CultureInfo.InvariantCulture,
                $"As {key.Mode}, but with the {words} {b / (a + b):0%} of the time."));
        }
    }

    private static double Fit(double[] amounts, KeyCandidate key) =>
        (Fit(amounts, key, KeyProfiles.Temperley) + Fit(amounts, key, KeyProfiles.AlbrechtShanahan)) / 2;

    private static double Fit(double[] amounts, KeyCandidate key, KeyProfile profile) =>
        KeyProfile.Correlation(amounts, key.IsMinor ? profile.Minor : profile.Major, key.Tonic);
}
