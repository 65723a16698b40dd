using System.Collections.Immutable;
using System.Numerics.Tensors;
using Harkbook.Listening.Estimators.Chords;
using Harkbook.Listening.Estimators.Keys;
using Harkbook.Listening.Reading.Lattices;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Reading.Harmony;

/// <summary>
/// Gathers spans of one key into stretches, and weighs each against the other keys: how well the best chords of the stretch in that key do, with the
/// keys around it as they are. However long a stretch is, it counts as a minute of evidence.
/// </summary>
internal sealed class KeyStretches(WeighedChords weighed, HarmonyModel model, HeldHarmony held, KeyWeights weights, int[] path)
{
    /// <summary>Noise alone leaves a little evidence of notes everywhere.</summary>
    private const double AsGoodAsSilent = 0.9;

    private const double ShortestMinutes = 0.25;

    /// <param name="length">The recording's; the last stretch ends there.</param>
    public ImmutableArray<HeardKey> Of(Seconds length)
    {
        var stretches = ImmutableArray.CreateBuilder<HeardKey>();
        for (int from = 0, to; from < path.Length; from = to)
        {
            to = from + 1;
            while (to < path.Length && path[to] == path[from] && held.KeyAt(to) == held.KeyAt(from))
                to++;
            var (start, end) = (from == 0 ? default : weighed.Spans[from].Start, to == path.Length ? length : weighed.Spans[to].Start);
            stretches.Add(new(start, end, held.KeyAt(from) is { } claim ? Told.Only(claim.Key) : Weigh(from, to)));
        }
        return stretches.ToImmutable();
    }

    /// <summary>The score of the best chords of some spans in a key.</summary>
    public static double Best(HarmonyModel model, int from, int to, int key)
    {
        var rows = new double[to - from][];
        for (var i = from; i < to; i++)
            model.ScoreChords(i, key, rows[i - from] = new double[ChordVocabulary.States.Length]);
        return new Lattice(new TableModel(rows, i => model.ChordsInto(from + i, key))).BestScore();
    }

    private Distribution<Key> Weigh(int from, int to)
    {
        if (weighed.Contents[from..to].All(c => c.Silence > AsGoodAsSilent))
            return KeyNames.Nothing;
        var logs = KeyCandidate.All.Select(k => Best(model, from, to, k.Index) - Border(from, to, k.Index)).ToArray();
        var minutes = Math.Max(ShortestMinutes, (weighed.Spans[to - 1].End - weighed.Spans[from].Start).Value / 60);
        TensorPrimitives.Divide(logs, weights.Temperature * minutes, logs);
        return weights.Sureness.Of(KeyNames.Rank(Softmax.Of(logs), KeyWords.AmountsOf(weighed, from, to)));
    }

    /// <summary>What a key costs beside the keys around a stretch.</summary>
    private double Border(int from, int to, int key) =>
        (from == 0 ? 0 : model.KeyCost(path[from - 1], key)) + (to == path.Length ? 0 : model.KeyCost(key, path[to]));
}
