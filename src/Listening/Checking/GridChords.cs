using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Chords;
using Harkbook.Listening.Evidence;
using Harkbook.Listening.Reading.Harmony;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Checking;

/// <summary>What a recording says of chords when its beats are taken to be where they are claimed to be.</summary>
internal sealed class GridChords
{
    private readonly WeighedChords weighed;
    private readonly KeyPrior prior = new(1);

    private GridChords(WeighedChords weighed) => this.weighed = weighed;

    /// <param name="beats">Rising. Fixed frames stand in for fewer than four.</param>
    public static GridChords Of(NotePosteriorgram notes, ImmutableArray<HeardBeat> beats) => new(HarmonyReader.Trained().Weigh(notes, beats));

    /// <summary>
    /// The log-posterior of each chord state over a stretch, up to what is common to all: the mean log-likelihood of its beats, counted as the square root
    /// of how many these are, since neighbours hold the same ringing notes, and how usual the state is in the key. Null where the stretch holds nothing.
    /// </summary>
    public double[]? Over(Seconds start, Seconds end, Key? key)
    {
        var (sum, count) = (new double[ChordVocabulary.States.Length], 0.0);
        for (var i = 0; i < weighed.Spans.Count; i++)
        {
            var span = weighed.Spans[i];
            var share = (Math.Min(end.Value, span.End.Value) - Math.Max(start.Value, span.Start.Value)) / (span.End - span.Start).Value;
            if (share <= 0.02)
                continue;
            count += share;
            for (var s = 0; s < sum.Length; s++)
                sum[s] += share * weighed.Fits[i][s];
        }
        var usual = key is null ? prior.Without : prior.In(key);
        return count == 0 ? null : [.. sum.Select((v, s) => v / Math.Sqrt(count) + Math.Log(usual[s]))];
    }
}
