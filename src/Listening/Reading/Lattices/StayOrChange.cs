using System.Numerics.Tensors;

namespace Harkbook.Listening.Reading.Lattices;

/// <summary>
/// A state stays, or changes to any state by how usual that one is, wherever it comes from. A step costs no more than there are states, which
/// lets a lattice have hundreds of them.
/// </summary>
/// <param name="stay">The log score of staying.</param>
/// <param name="change">The log score of changing, to each state. Changing to the same state is a way too, beside staying.</param>
internal sealed class StayOrChange(double stay, double[] change) : Transitions
{
    public double Stay => stay;

    /// <summary>Staying and changing where a change has a chance, and each state one after a change; both in 0 to 1, the latter as logs.</summary>
    public static StayOrChange ByChance(double chance, ReadOnlySpan<double> logPriors)
    {
        var change = new double[logPriors.Length];
        TensorPrimitives.Add(logPriors, Math.Log(chance), change);
        return new(Math.Log(1 - chance), change);
    }

    /// <summary>For a path the larger of both ways; summed, both count (<see cref="Arrive"/>).</summary>
    public override double this[int from, int to] => from == to ? Math.Max(stay, change[to]) : change[to];

    public override void Arrive<TSum>(ReadOnlySpan<double> before, Span<double> into)
    {
        var any = TSum.Of(before);
        var arriving = new double[into.Length];
        TensorPrimitives.Add(change, any, arriving);
        TensorPrimitives.Add(before, stay, into);
        TSum.Join(arriving, into);
    }

    public override void Leave<TSum>(ReadOnlySpan<double> after, Span<double> into)
    {
        var leaving = new double[after.Length];
        TensorPrimitives.Add(change, after, leaving);
        var any = TSum.Of(leaving);
        TensorPrimitives.Add(after, stay, into);
        leaving.AsSpan().Fill(any);
        TSum.Join(leaving, into);
    }

    public override int BestFrom(ReadOnlySpan<double> before, int to)
    {
        var any = TensorPrimitives.IndexOfMax(before);
        return before[to] + stay >= before[any] + change[to] ? to : any;
    }
}
