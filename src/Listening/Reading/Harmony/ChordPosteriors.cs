using System.Numerics.Tensors;
using Harkbook.Listening.Estimators.Chords;
using Harkbook.Listening.Reading.Lattices;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Reading.Harmony;

/// <summary>
/// How likely each chord is over any stretch of time, in the keys that were read: for each chord the best reading of the whole recording that
/// holds it all through the stretch, set against the others'.
/// </summary>
public sealed class ChordPosteriors
{
    private readonly IReadOnlyList<ChordSpan> spans;
    private readonly double[][] scores;
    private readonly double[] stays;
    private readonly double[][] forward;
    private readonly double[][] backward;
    private readonly double temperature;

    /// <param name="keys">For each span, the key that was read.</param>
    internal ChordPosteriors(IReadOnlyList<ChordSpan> spans, HarmonyModel model, int[] keys, double temperature)
    {
        (this.spans, this.temperature) = (spans, temperature);
        scores = [.. spans.Select((_, i) => Row(model, i, keys[i]))];
        StayOrChange[] into = [.. spans.Select((_, i) => model.ChordsInto(i, keys[i]))];
        stays = [.. into.Select(t => t.Stay)];
        (forward, backward) = (new double[spans.Count][], new double[spans.Count][]);
        new Lattice(new TableModel(scores, i => into[i])).Sweep<MaxOf>((i, before, after) => (forward[i], backward[i]) = (before.ToArray(), after.ToArray()));
    }

    /// <summary>
    /// How far the best reading that holds a chord, with its bass, all through a stretch lies before the best that holds another, as log-odds, and
    /// that other. Chords that aren't listened for stand for the nearest that is.
    /// </summary>
    /// <returns>Null where the stretch holds no span.</returns>
    public ChordOdds? Of(Chord claim, Seconds start, Seconds end)
    {
        int[] within = [.. Enumerable.Range(0, spans.Count).Where(i => Middle(i) >= start && Middle(i) < end)];
        if (within.Length == 0)
            return null;
        var logs = Held(within[0], within[^1] + 1);
        var own = ChordVocabulary.Nearest(claim);
        var score = logs[own];
        logs[own] = double.NegativeInfinity;
        var rival = TensorPrimitives.IndexOfMax(logs);
        return new((score - logs[rival]) / Tempering(within.Length), ChordSpelling.Spelled(ChordVocabulary.States[rival], null));
    }

    /// <summary>For each chord, its posterior over some spans if one chord holds them all.</summary>
    internal double[] Within(int from, int to)
    {
        var logs = Held(from, to);
        TensorPrimitives.Divide(logs, Tempering(to - from), logs);
        Softmax.Into(logs, logs);
        return logs;
    }

    /// <summary>Spans that hold one chord err together, so however many there are they count as one.</summary>
    private double Tempering(int count) => temperature * count;

    private Seconds Middle(int span) => (spans[span].Start + spans[span].End) * 0.5;

    /// <summary>For each chord, the score of the best path that holds it in some spans.</summary>
    internal double[] Held(int from, int to)
    {
        var held = (double[])forward[from].Clone();
        for (var i = from + 1; i < to; i++)
        {
            TensorPrimitives.Add(held, scores[i], held);
            TensorPrimitives.Add(held, stays[i], held);
        }
        TensorPrimitives.Add(held, backward[to - 1], held);
        return held;
    }

    private static double[] Row(HarmonyModel model, int span, int key)
    {
        var row = new double[ChordVocabulary.States.Length];
        model.ScoreChords(span, key, row);
        return row;
    }
}
