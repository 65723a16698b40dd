using System.Collections.Immutable;
using System.Numerics.Tensors;
using Harkbook.Listening.Estimators.Chords;
using Harkbook.Listening.Estimators.Keys;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Reading.Harmony;

/// <summary>
/// Holds the keys and chords that a person claimed: nothing else may be in their spans. Spans that were heard just as a claimed one was lean to its
/// chord too: enough to decide between chords that were nearly as likely, not enough to overrule clear evidence.
/// </summary>
internal sealed class HeldHarmony
{
    /// <summary>Half alike is hardly alike.</summary>
    private const int Sharpness = 4;

    private readonly WeighedChords weighed;
    private readonly Claims claims;
    private readonly double alike;
    private readonly ChordClaim?[] chords;

    /// <param name="weighed">With a border wherever a claim has one.</param>
    /// <param name="alike">How far a span that was heard just as a claimed one leans to its chord, in log units.</param>
    public HeldHarmony(WeighedChords weighed, Claims claims, double alike)
    {
        (this.weighed, this.claims, this.alike) = (weighed, claims, alike);
        chords = [.. weighed.Spans.Select((_, i) => claims.Chords.FirstOrDefault(c => Holds(c.Start, c.End, i)))];
    }

    /// <summary>The claim on a span's chord; null where there is none.</summary>
    public ChordClaim? ChordAt(int span) => chords[span];

    public KeyClaim? KeyAt(int span) => claims.Keys.FirstOrDefault(k => Holds(k.Start, k.End, span));

    /// <summary>The key that a candidate stands for: where a key of its tonic and third was claimed, with that one's mode.</summary>
    public Key KeyOf(KeyCandidate candidate) =>
        claims.Keys.Select(k => k.Key).FirstOrDefault(k => KeyCandidate.Of(k) == candidate) ?? candidate.In(candidate.Mode);

    /// <param name="fits">For each span, log scores of the chords.</param>
    public void HoldChords(double[][] fits)
    {
        LiftFree(fits);
        for (var i = 0; i < fits.Length; i++)
        {
            if (ChordAt(i) is { } claim)
                Only(fits[i], ChordVocabulary.Nearest(claim.Chord));
        }
    }

    /// <param name="keys">For each span, log scores of the keys.</param>
    public void HoldKeys(double[][] keys)
    {
        for (var i = 0; i < keys.Length; i++)
        {
            if (KeyAt(i) is { } claim)
                Only(keys[i], KeyCandidate.Of(claim.Key).Index);
        }
    }

    /// <summary>Lifts the chords of claims in the spans that no claim holds.</summary>
    private void LiftFree(double[][] fits)
    {
        var free = Enumerable.Range(0, fits.Length).Where(i => chords[i] is null).ToDictionary(i => i, i => Rooted(Softmax.Of(weighed.Fits[i])));
        if (free.Count == 0 || alike <= 0)
            return;
        foreach (var claim in claims.Chords)
        {
            double[][] spans = [.. Enumerable.Range(0, fits.Length).Where(i => Holds(claim.Start, claim.End, i)).Select(i => Softmax.Of(weighed.Fits[i]))];
            if (spans.Length == 0)
                continue;
            var (state, heard) = (ChordVocabulary.Nearest(claim.Chord), Rooted(Mean(spans)));
            foreach (var (i, roots) in free)
                fits[i][state] += alike * Math.Pow(TensorPrimitives.Dot<double>(heard, roots), Sharpness);
        }
    }

    /// <summary>Whether a claim's stretch holds the middle of a span.</summary>
    private bool Holds(Seconds start, Seconds end, int span)
    {
        var middle = (weighed.Spans[span].Start + weighed.Spans[span].End) * 0.5;
        return middle >= start && middle < end;
    }

    private static void Only(double[] scores, int state)
    {
        var own = scores[state];
        Array.Fill(scores, HarmonyModel.Never);
        scores[state] = own;
    }

    /// <summary>
    /// Roots of a distribution's chances: the sum of two such rows' products is how far two distributions are one (A. Bhattacharyya, "On a measure of
    /// divergence between two statistical populations", 1943), 0 to 1.
    /// </summary>
    private static double[] Rooted(double[] chances) => Array.ConvertAll(chances, Math.Sqrt);

    private static double[] Mean(double[][] rows) => [.. Enumerable.Range(0, rows[0].Length).Select(i => rows.Average(r => r[i]))];
}
