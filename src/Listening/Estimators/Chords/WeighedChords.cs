using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Chords;

/// <summary>What a recording's spans say of chords and keys.</summary>
/// <param name="Fits">For each span, how well each state of <see cref="ChordVocabulary"/> explains it (natural log units).</param>
/// <param name="Change">For each span, the chance that the chord changes at its start.</param>
/// <param name="Keys">For each span, log chances of the 24 keys, in the order of <see cref="Keys.KeyCandidate"/>; null where they weren't weighed.</param>
internal sealed record WeighedChords(IReadOnlyList<ChordSpan> Spans, double[][] Fits, double[] Change, double[][]? Keys)
{
    /// <summary>The log chances of keys in the spans whose middle lies within two times: their sum, and their mean by length; zeros where there are none.</summary>
    public (double[] Sum, double[] Mean) KeysWithin(Seconds start, Seconds end)
    {
        var (sum, weighted, seconds) = (new double[24], new double[24], 0.0);
        for (var i = 0; i < Spans.Count; i++)
        {
            var middle = (Spans[i].Start + Spans[i].End) * 0.5;
            if (middle < start || middle >= end)
                continue;
            var length = (Spans[i].End - Spans[i].Start).Value;
            seconds += length;
            for (var k = 0; k < 24; k++)
            {
                sum[k] += Keys![i][k];
                weighted[k] += length * Keys[i][k];
            }
        }
        return (sum, Array.ConvertAll(weighted, w => w / Math.Max(1e-9, seconds)));
    }
}
