namespace Harkbook.Listening.Reading.Lattices;

/// <summary>A model whose scores and transitions lie in memory.</summary>
/// <param name="scores">For each step, the log score of each state.</param>
/// <param name="into">How each step is reached; the first is not asked for.</param>
internal sealed class TableModel(IReadOnlyList<double[]> scores, Func<int, Transitions> into) : ILatticeModel
{
    public int Steps => scores.Count;

    public int States(int step) => scores[step].Length;

    public void Score(int step, Span<double> into) => scores[step].CopyTo(into);

    public Transitions Into(int step) => into(step);
}
