using System.Globalization;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Estimators.Keys;

/// <summary>Ranks keys for one stretch.</summary>
internal static class KeyWeighing
{
    /// <summary>A difference of this size in the summed score makes one key e times as likely as another.</summary>
    private const double Sharpness = 0.07;
    private const double BassShare = 0.3;
    private const double StartShare = 0.08;
    private const double EndShare = 0.14;

    /// <summary>How much each of <see cref="ChordCues"/> counts (own judgement, after common practice).</summary>
    private static readonly double[] ChordWeights = [0.3, 0.08, 0.12, 0.1, 0.1, 0.05, 0.15];

    private const double MostForMode = 0.45;

    // How far the chord network's word on the key counts beside all this, and how sharply all this then does; chosen on 30 pieces of bench/pieces (seed 41).
    private const double NetworkWeight = 2;
    private const double SharpnessBesideNetwork = 0.12;

    /// <summary>Fitted on 18 stretches of three sets of pieces (docs/listening.md), so roughly.</summary>
    private static readonly Calibration SurenessBesideNetwork = new(0.35, 0.6);

    /// <summary>Where no notes sound.</summary>
    public static Distribution<Key> Nothing { get; } = new(new Candidate<Key>(new KeyCandidate(0).In(Mode.Major), 0, "No notes were heard, so no key shows."));

    /// <param name="network">The chord network's log chances of the 24 keys, its mean over the stretch; null where it wasn't asked.</param>
    public static Distribution<Key> Rank(double[] amounts, double[] bass, double[] firstBass, double[] lastBass, ChordCues? chords = null, double[]? network = null)
    {
        if (amounts.Sum() <= 0)
            return Nothing;
        var scores = KeyCandidate.All
            .Select(k => Score(amounts, bass, firstBass, lastBass, chords, k) / (network is null ? Sharpness : SharpnessBesideNetwork) + NetworkWeight * (network?[k.Index] ?? 0))
            .ToArray();
        var chances = scores.Select(s => Math.Exp(s - scores.Max())).ToArray();
        var ranked = new Distribution<Key>([.. KeyCandidate.All
            .OrderByDescending(k => scores[k.Index]).Take(5)
            .SelectMany(k => WithModes(k, chances[k.Index] / chances.Sum(), amounts))
            .OrderByDescending(c => c.Confidence).Take(6)]);
        return network is null ? ranked : SurenessBesideNetwork.Of(ranked);
    }

    private static double Score(double[] amounts, double[] bass, double[] firstBass, double[] lastBass, ChordCues? chords, KeyCandidate k) =>
        Fit(amounts, k) + BassShare * Share(bass, k) + StartShare * Share(firstBass, k) + EndShare * Share(lastBass, k) + FromChords(chords, k);

    private static double Fit(double[] amounts, KeyCandidate key) =>
        (Fit(amounts, key, KeyProfiles.Temperley) + Fit(amounts, key, KeyProfiles.AlbrechtShanahan)) / 2;

    private static double Fit(double[] amounts, KeyCandidate key, KeyProfile profile) =>
        KeyProfile.Correlation(amounts, key.IsMinor ? profile.Minor : profile.Major, key.Tonic);

    private static double FromChords(ChordCues? chords, KeyCandidate key) =>
        chords is null ? 0 : chords.Of(key).Zip(ChordWeights, (cue, weight) => cue * weight).Sum();

    private static double Share(double[] bass, KeyCandidate key) => bass.Sum() > 0 ? bass[key.Tonic] / bass.Sum() : 0;

    /// <summary>Splits a key's chance with the mode that differs in one note, by which of the two notes is used more.</summary>
    private static IEnumerable<Candidate<Key>> WithModes(KeyCandidate key, double chance, double[] amounts)
    {
        var (own, other, mode, words) = key.IsMinor ? (8, 9, Mode.Dorian, "raised sixth") : (11, 10, Mode.Mixolydian, "lowered seventh");
        var (a, b) = (amounts[(key.Tonic + own) % 12], amounts[(key.Tonic + other) % 12]);
        var share = a + b > 0 ? Math.Min(MostForMode, b / (a + b)) : 0;
        yield return new(key.In(key.Mode), chance * (1 - share), string.Create(CultureInfo.InvariantCulture,
            $"The notes match the key's profile by {Fit(amounts, key):0.00} of 1; the keynote takes {amounts[key.Tonic] / amounts.Sum():0%} of the sound."));
        if (share > 0.15)
        {
            yield return new(key.In(mode), chance * share, string.Create(CultureInfo.InvariantCulture,
                $"As {key.Mode}, but with the {words} {b / (a + b):0%} of the time."));
        }
    }
}
