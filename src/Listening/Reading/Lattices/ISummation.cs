namespace Harkbook.Listening.Reading.Lattices;

/// <summary>
/// How the scores of several ways are put together: the largest of them (Viterbi, max-marginals) or the log of the sum of what they are logs
/// of (forward–backward). A lattice's arithmetic is the same for both but for this.
/// </summary>
internal interface ISummation
{
    static abstract double Of(double a, double b);

    static abstract double Of(ReadOnlySpan<double> all);

    /// <summary>Each of <paramref name="into"/> together with its fellow in <paramref name="other"/>.</summary>
    static abstract void Join(ReadOnlySpan<double> other, Span<double> into);
}
