using System.Collections.Immutable;
using System.Numerics.Tensors;
using Harkbook.Listening.Estimators;
using Harkbook.Listening.Estimators.Chords;
using Harkbook.Listening.Estimators.Keys;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Reading.Harmony;

/// <summary>What each span says of the key: the network's word, its notes, and whether the home chord opens and closes.</summary>
internal sealed class KeyWords
{
    private const double Sounding = 0.5;

    /// <summary>For each key, and within it for each chord: 1 for the home chord, half for one on the keynote without a third, else 0.</summary>
    private static readonly double[][] HomeIn =
        [.. KeyCandidate.All.Select(k => ChordVocabulary.States.Select(s => IsHome(s, k)).ToArray())];

    /// <summary>Profiles of the 24 keys turned to C, their mean 0 and their length 1: the mean of two published ones.</summary>
    private static readonly double[][] Profiles =
        [.. KeyCandidate.All.Select(k => Turned(KeyProfiles.Temperley, k).Zip(Turned(KeyProfiles.AlbrechtShanahan, k), (a, b) => (a + b) / 2).ToArray())];

    private readonly WeighedChords weighed;
    private readonly KeyWeights weights;
    private readonly double norm;

    /// <param name="fits">For each span, log scores of the chords.</param>
    public KeyWords(WeighedChords weighed, double[][] fits, KeyWeights weights)
    {
        (this.weighed, this.weights) = (weighed, weights);
        var total = AmountsOf(weighed, 0, weighed.Spans.Count);
        norm = Math.Max(1e-9, Length(Centred(total)));
        Minutes = weighed.Spans.Sum(s => (s.End - s.Start).Value) / 60;
        Scores = [.. weighed.Spans.Select((_, i) => Of(i))];
        WeighEnds(fits);
    }

    /// <summary>For each span, log scores of the 24 keys.</summary>
    public double[][] Scores { get; }

    public double Minutes { get; }

    /// <summary>How much of each pitch class sounds in some spans, in time.</summary>
    public static double[] AmountsOf(WeighedChords weighed, int from, int to)
    {
        var sum = new double[12];
        for (var i = from; i < to; i++)
        {
            for (var pc = 0; pc < 12; pc++)
                sum[pc] += weighed.Contents[i].Amount[pc] * Seconds(weighed.Spans[i]);
        }
        return sum;
    }

    private double[] Of(int span)
    {
        var (minutes, amount) = (Seconds(weighed.Spans[span]) / 60, Centred(weighed.Contents[span].Amount));
        var network = weighed.Keys?[span];
        return [.. KeyCandidate.All.Select(k => weights.Temperature * (weights.Network * minutes * (network?[k.Index] ?? 0)
            + weights.Profile * Minutes * Seconds(weighed.Spans[span]) / norm * TensorPrimitives.Dot<double>(amount, Profiles[k.Index])))];
    }

    /// <summary>The start and the end of what sounds.</summary>
    private void WeighEnds(double[][] fits)
    {
        int[] sounding = [.. Enumerable.Range(0, Scores.Length).Where(i => weighed.Contents[i].Silence < Sounding)];
        if (sounding is not [var first, ..])
            return;
        var (opening, closing, bass) = (Softmax.Of(fits[first]), Softmax.Of(fits[sounding[^1]]), weighed.Contents[first].Bass);
        foreach (var k in KeyCandidate.All)
        {
            Scores[first][k.Index] += weights.Temperature
                * (weights.FirstBass * bass[k.Tonic] + weights.First * TensorPrimitives.Dot<double>(opening, HomeIn[k.Index]));
            Scores[sounding[^1]][k.Index] += weights.Temperature * weights.Last * TensorPrimitives.Dot<double>(closing, HomeIn[k.Index]);
        }
    }

    private static double Seconds(ChordSpan span) => (span.End - span.Start).Value;

    private static double[] Turned(KeyProfile profile, KeyCandidate key)
    {
        ImmutableArray<double> own = key.IsMinor ? profile.Minor : profile.Major;
        var centred = Centred([.. Enumerable.Range(0, 12).Select(pc => own[(pc - key.Tonic + 12) % 12])]);
        var length = Length(centred);
        return Array.ConvertAll(centred, v => v / length);
    }

    private static double[] Centred(double[] values)
    {
        var mean = values.Average();
        return Array.ConvertAll(values, v => v - mean);
    }

    private static double Length(double[] values) => TensorPrimitives.Norm<double>(values);

    private static double IsHome(ChordState state, KeyCandidate key)
    {
        if (state.Quality is not { } quality || state.Root != key.Tonic)
            return 0;
        var (minor, major) = (quality.Quality.PitchClasses.Contains(3), quality.Quality.PitchClasses.Contains(4));
        return minor == major ? 0.5 : minor == key.IsMinor ? 1 : 0;
    }
}
