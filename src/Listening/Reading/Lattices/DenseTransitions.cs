namespace Harkbook.Listening.Reading.Lattices;

/// <summary>Any log score from any state to any other; a step costs states × states.</summary>
/// <param name="scores">By the state before, then the state after.</param>
internal sealed class DenseTransitions(double[,] scores) : Transitions
{
    /// <summary>From a function of the state before and the state after.</summary>
    public static DenseTransitions Of(int before, int after, Func<int, int, double> score)
    {
        var scores = new double[before, after];
        for (var from = 0; from < before; from++)
        {
            for (var to = 0; to < after; to++)
                scores[from, to] = score(from, to);
        }
        return new(scores);
    }

    public override double this[int from, int to] => scores[from, to];

    public override void Arrive<TSum>(ReadOnlySpan<double> before, Span<double> into)
    {
        into.Fill(double.NegativeInfinity);
        for (var from = 0; from < before.Length; from++)
        {
            for (var to = 0; to < into.Length; to++)
                into[to] = TSum.Of(into[to], before[from] + scores[from, to]);
        }
    }

    public override void Leave<TSum>(ReadOnlySpan<double> after, Span<double> into)
    {
        into.Fill(double.NegativeInfinity);
        for (var from = 0; from < into.Length; from++)
        {
            for (var to = 0; to < after.Length; to++)
                into[from] = TSum.Of(into[from], scores[from, to] + after[to]);
        }
    }
}
