using System.Numerics.Tensors;
using Harkbook.Listening.Estimators.Keys;
using Harkbook.Listening.Reading.Lattices;

namespace Harkbook.Listening.Reading.Harmony;

/// <summary>
/// From a key and a chord to a key and a chord: first the key stays or, at a bar line, changes at a cost; then the chord stays or changes to any
/// by how usual it is in the key. The state of key k and chord c is k · chords + c, so a step costs no more than there are states.
/// </summary>
/// <param name="priors">For each key, the log chance of each chord after a change.</param>
/// <param name="keyCosts">What going from one key to another costs, from × to; null where keys can't change.</param>
internal sealed class HarmonyTransitions(double chance, double[][] priors, double[,]? keyCosts) : Transitions
{
    private readonly double stay = Math.Log(1 - chance);
    private readonly double change = Math.Log(chance);
    private readonly int chords = priors[0].Length;

    public override double this[int from, int to]
    {
        get
        {
            var (fromKey, fromChord) = Math.DivRem(from, chords);
            var (toKey, toChord) = Math.DivRem(to, chords);
            var changed = change + priors[toKey][toChord];
            return KeyScore(fromKey, toKey) + (fromChord == toChord ? Math.Max(stay, changed) : changed);
        }
    }

    public override void Arrive<TSum>(ReadOnlySpan<double> before, Span<double> into)
    {
        var moved = keyCosts is null ? before : Moved<TSum>(before, into: true);
        for (var k = 0; k < KeyCandidate.Count; k++)
        {
            var from = moved.Slice(k * chords, chords);
            var to = into.Slice(k * chords, chords);
            TensorPrimitives.Add(priors[k], change + TSum.Of(from), to);
            var staying = new double[chords];
            TensorPrimitives.Add(from, stay, staying);
            TSum.Join(staying, to);
        }
    }

    public override void Leave<TSum>(ReadOnlySpan<double> after, Span<double> into)
    {
        var left = new double[into.Length];
        for (var k = 0; k < KeyCandidate.Count; k++)
        {
            var from = after.Slice(k * chords, chords);
            var to = left.AsSpan(k * chords, chords);
            TensorPrimitives.Add(priors[k], from, to);
            to.Fill(change + TSum.Of(to));
            var staying = new double[chords];
            TensorPrimitives.Add(from, stay, staying);
            TSum.Join(staying, to);
        }
        (keyCosts is null ? left : Moved<TSum>(left, into: false)).CopyTo(into);
    }

    public override int BestFrom(ReadOnlySpan<double> before, int to)
    {
        var (key, chord) = Math.DivRem(to, chords);
        var (best, top) = (0, double.NegativeInfinity);
        for (var k = 0; k < KeyCandidate.Count; k++)
        {
            var row = before.Slice(k * chords, chords);
            var any = TensorPrimitives.IndexOfMax(row);
            Offer(k, chord, row[chord] + stay);
            Offer(k, any, row[any] + change + priors[key][chord]);
        }
        return best;

        void Offer(int fromKey, int fromChord, double score)
        {
            score += KeyScore(fromKey, key);
            if (score > top)
                (best, top) = (fromKey * chords + fromChord, score);
        }
    }

    private double KeyScore(int from, int to) => keyCosts is not null ? -keyCosts[from, to] : from == to ? 0 : double.NegativeInfinity;

    /// <summary>Every chord's row after the keys may have changed.</summary>
    /// <param name="into">Whether the given rows are those before the change; else those after it, and the change is taken back.</param>
    private double[] Moved<TSum>(ReadOnlySpan<double> rows, bool into) where TSum : struct, ISummation
    {
        var (moved, one) = (new double[rows.Length], new double[chords]);
        moved.AsSpan().Fill(double.NegativeInfinity);
        for (var here = 0; here < KeyCandidate.Count; here++)
        {
            var row = moved.AsSpan(here * chords, chords);
            for (var there = 0; there < KeyCandidate.Count; there++)
            {
                TensorPrimitives.Add(rows.Slice(there * chords, chords), into ? KeyScore(there, here) : KeyScore(here, there), one);
                TSum.Join(one, row);
            }
        }
        return moved;
    }
}
