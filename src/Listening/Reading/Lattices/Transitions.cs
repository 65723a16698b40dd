namespace Harkbook.Listening.Reading.Lattices;

/// <summary>
/// The log scores of going from each state of one step to each of the next. What is dense costs (states before) × (states after) a step; kinds
/// with more order in them answer the same in less.
/// </summary>
internal abstract class Transitions
{
    /// <summary>From a state of the step before to a state of this one.</summary>
    public abstract double this[int from, int to] { get; }

    /// <summary>For each state of this step, all ways into it: <c>into[to]</c> sums <c>before[from] + this[from, to]</c> over <c>from</c>.</summary>
    public abstract void Arrive<TSum>(ReadOnlySpan<double> before, Span<double> into) where TSum : struct, ISummation;

    /// <summary>For each state of the step before, all ways on: <c>into[from]</c> sums <c>this[from, to] + after[to]</c> over <c>to</c>.</summary>
    public abstract void Leave<TSum>(ReadOnlySpan<double> after, Span<double> into) where TSum : struct, ISummation;

    /// <summary>The state of the step before from which a state is best reached; of equals the first.</summary>
    public virtual int BestFrom(ReadOnlySpan<double> before, int to)
    {
        var best = 0;
        for (var from = 1; from < before.Length; from++)
        {
            if (before[from] + this[from, to] > before[best] + this[best, to])
                best = from;
        }
        return best;
    }
}
