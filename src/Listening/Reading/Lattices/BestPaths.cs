namespace Harkbook.Listening.Reading.Lattices;

/// <summary>
/// The k best paths: a best-first search from the first step on, in which what can still be earned is known exactly, so that no path is left
/// and taken up again in vain (P. Hart, N. Nilsson and B. Raphael, "A formal basis for the heuristic determination of minimum cost paths", IEEE
/// Transactions on Systems Science and Cybernetics 4, 1968). Work and memory grow with k × steps × states.
/// </summary>
/// <param name="backward">For each step and state, the best that can still be earned after it.</param>
internal sealed class BestPaths(ILatticeModel model, double[][] backward)
{
    private readonly PriorityQueue<Node, double> open = new();

    /// <summary>A path up to a step: the state there, the score so far.</summary>
    private sealed record Node(Node? Before, int Step, int State, double Score);

    public IReadOnlyList<LatticePath> Take(int count)
    {
        Open(null, 0);
        var paths = new List<LatticePath>();
        while (paths.Count < count && open.TryDequeue(out var node, out _))
        {
            if (node.Step == model.Steps - 1)
                paths.Add(PathTo(node));
            else
                Open(node, node.Step + 1);
        }
        return paths;
    }

    private void Open(Node? before, int step)
    {
        var scores = new double[model.States(step)];
        model.Score(step, scores);
        for (var s = 0; s < scores.Length; s++)
        {
            var score = scores[s] + (before is null ? 0 : before.Score + model.Into(step)[before.State, s]);
            if (!double.IsNegativeInfinity(score + backward[step][s]))
                open.Enqueue(new(before, step, s, score), -(score + backward[step][s]));
        }
    }

    private LatticePath PathTo(Node last)
    {
        var states = new int[model.Steps];
        for (var node = last; node is not null; node = node.Before)
            states[node.Step] = node.State;
        return new(states, last.Score);
    }
}
