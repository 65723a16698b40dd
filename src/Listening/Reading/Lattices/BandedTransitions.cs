namespace Harkbook.Listening.Reading.Lattices;

/// <summary>
/// Only near states lead to each other (as tempi do, or places on a neck): from state s to s − reach … s + reach, by how far they lie apart.
/// A step costs states × (2 · reach + 1).
/// </summary>
/// <param name="steps">The log score of each distance, from −reach to +reach: an odd number of them.</param>
internal sealed class BandedTransitions(double[] steps) : Transitions
{
    private readonly int reach = steps.Length % 2 == 1
        ? steps.Length / 2
        : throw new ArgumentException($"{steps.Length} distances have no middle one; give an odd number, from −reach to +reach.", nameof(steps));

    public override double this[int from, int to] => Math.Abs(to - from) <= reach ? steps[to - from + reach] : double.NegativeInfinity;

    public override void Arrive<TSum>(ReadOnlySpan<double> before, Span<double> into)
    {
        for (var to = 0; to < into.Length; to++)
        {
            into[to] = double.NegativeInfinity;
            for (var from = Math.Max(0, to - reach); from <= Math.Min(before.Length - 1, to + reach); from++)
                into[to] = TSum.Of(into[to], before[from] + steps[to - from + reach]);
        }
    }

    public override void Leave<TSum>(ReadOnlySpan<double> after, Span<double> into)
    {
        for (var from = 0; from < into.Length; from++)
        {
            into[from] = double.NegativeInfinity;
            for (var to = Math.Max(0, from - reach); to <= Math.Min(after.Length - 1, from + reach); to++)
                into[from] = TSum.Of(into[from], steps[to - from + reach] + after[to]);
        }
    }
}
