using System.Numerics.Tensors;

namespace Harkbook.Listening.Reading.Lattices;

/// <summary>
/// A trellis of steps × states, and the four questions that are asked of one. The likeliest path is found by Viterbi's algorithm (A. Viterbi,
/// "Error bounds for convolutional codes and an asymptotically optimum decoding algorithm", IEEE Transactions on Information Theory 13, 1967);
/// the posterior of each state at each step by forward–backward (L. R. Rabiner, "A tutorial on hidden Markov models and selected applications
/// in speech recognition", Proceedings of the IEEE 77, 1989), in logs throughout; the max-marginal of a state at a step is the score of the best
/// path that goes through it. Work grows with steps × what a step's <see cref="Transitions"/> cost, memory with the square root of the steps:
/// forward scores are kept at every so many steps, and those between are made again when they are asked for.
/// </summary>
internal sealed class Lattice
{
    private readonly ILatticeModel model;
    private readonly int stride;

    public Lattice(ILatticeModel model)
    {
        if (model.Steps < 1)
            throw new ArgumentOutOfRangeException(nameof(model), model.Steps, "A lattice needs at least one step.");
        (this.model, stride) = (model, (int)Math.Ceiling(Math.Sqrt(model.Steps)));
    }

    /// <summary>What is seen at a step: for each state the score of all ways to it, itself included, and of all ways on from it.</summary>
    public delegate void Visit(int step, ReadOnlySpan<double> forward, ReadOnlySpan<double> backward);

    /// <summary>The likeliest path.</summary>
    public LatticePath Best()
    {
        var path = new int[model.Steps];
        var score = 0.0;
        EachForward<MaxOf>((step, forward) =>
        {
            if (step == model.Steps - 1)
                (path[step], score) = (TensorPrimitives.IndexOfMax(forward), TensorPrimitives.Max(forward));
            else
                path[step] = model.Into(step + 1).BestFrom(forward, path[step + 1]);
        });
        return new(path, score);
    }

    /// <summary>The score of the likeliest path, without the path.</summary>
    public double BestScore()
    {
        var at = Scores(0);
        for (var step = 1; step < model.Steps; step++)
            at = Next<MaxOf>(step, at);
        return TensorPrimitives.Max(at);
    }

    /// <summary>For each step, the posterior of each state given all scores; the states of a step sum to 1.</summary>
    public double[][] Posteriors()
    {
        var posteriors = new double[model.Steps][];
        Sweep<LogSumOf>((step, forward, backward) =>
        {
            var all = posteriors[step] = new double[forward.Length];
            TensorPrimitives.Add(forward, backward, all);
            Softmax.Into(all, all);
        });
        return posteriors;
    }

    /// <summary>For each step and state, the score of the best path that goes through it. The largest of every step is the best path's.</summary>
    public double[][] MaxMarginals()
    {
        var marginals = new double[model.Steps][];
        Sweep<MaxOf>((step, forward, backward) =>
        {
            marginals[step] = new double[forward.Length];
            TensorPrimitives.Add(forward, backward, marginals[step]);
        });
        return marginals;
    }

    /// <summary>The paths of the largest scores, the best first; fewer where there are no more. Ties come in any order.</summary>
    public IReadOnlyList<LatticePath> Best(int count) => new BestPaths(model, Backward()).Take(count);

    /// <summary>Visits every step, the last first, with the scores of all ways to each state and on from it.</summary>
    public void Sweep<TSum>(Visit visit) where TSum : struct, ISummation
    {
        double[] backward = [], onward = [];
        EachForward<TSum>((step, forward) =>
        {
            backward = step == model.Steps - 1 ? new double[forward.Length] : Before<TSum>(step + 1, onward, forward.Length);
            visit(step, forward, backward);
            onward = new double[forward.Length];
            model.Score(step, onward);
            TensorPrimitives.Add(onward, backward, onward);
        });
    }

    /// <summary>For each step and state, the best that can still be earned after it.</summary>
    private double[][] Backward()
    {
        var backward = new double[model.Steps][];
        backward[^1] = new double[model.States(model.Steps - 1)];
        for (var step = model.Steps - 1; step > 0; step--)
        {
            var onward = Scores(step);
            TensorPrimitives.Add(onward, backward[step], onward);
            backward[step - 1] = Before<MaxOf>(step, onward, model.States(step - 1));
        }
        return backward;
    }

    private double[] Before<TSum>(int step, double[] onward, int states) where TSum : struct, ISummation
    {
        var before = new double[states];
        model.Into(step).Leave<TSum>(onward, before);
        return before;
    }

    /// <summary>Visits the forward scores of every step, the last step first.</summary>
    private void EachForward<TSum>(Action<int, double[]> visit) where TSum : struct, ISummation
    {
        var kept = new double[(model.Steps - 1) / stride + 1][];
        var at = kept[0] = Scores(0);
        for (var step = 1; step < model.Steps; step++)
        {
            at = Next<TSum>(step, at);
            if (step % stride == 0)
                kept[step / stride] = at;
        }
        for (var block = kept.Length - 1; block >= 0; block--)
        {
            var last = Math.Min(model.Steps, (block + 1) * stride) - 1;
            var rows = new double[last - block * stride + 1][];
            rows[0] = kept[block];
            for (var i = 1; i < rows.Length; i++)
                rows[i] = Next<TSum>(block * stride + i, rows[i - 1]);
            for (var i = rows.Length - 1; i >= 0; i--)
                visit(block * stride + i, rows[i]);
        }
    }

    private double[] Next<TSum>(int step, double[] before) where TSum : struct, ISummation
    {
        var arrived = new double[model.States(step)];
        model.Into(step).Arrive<TSum>(before, arrived);
        TensorPrimitives.Add(arrived, Scores(step), arrived);
        return arrived;
    }

    private double[] Scores(int step)
    {
        var scores = new double[model.States(step)];
        model.Score(step, scores);
        return scores;
    }
}
