using System.Collections.Immutable;
using System.Numerics.Tensors;
using Harkbook.Listening.Evidence;
using Harkbook.Listening.Reading.Lattices;

namespace Harkbook.Listening.Estimators.Beats.Rows;

/// <summary>All that speaks for rows of beats over a stretch of at most ten minutes, before a person's claims: it is worked out once.</summary>
internal sealed class RowEvidence
{
    private RowEvidence(RowGraph graph, float[] features, float[] clues, float[] places) =>
        (Graph, Features, Clues, Places) = (graph, features, clues, places);

    public RowGraph Graph { get; }

    /// <summary>Shape (steps × <see cref="StepFeatures.Count"/>).</summary>
    public float[] Features { get; }

    /// <summary>Shape (steps × <see cref="StepClues.Count"/>).</summary>
    public float[] Clues { get; }

    /// <summary>What the clues say of each place in the bar, about their mean; shape (steps × 9).</summary>
    public float[] Places { get; }

    public static RowEvidence Of(
        PulseEvidence curves, IPulseBands bands, double[] onsets, ImmutableArray<HeardNote> notes, RowGraph graph, BeatModel model,
        CancellationToken cancellation)
    {
        var features = new float[graph.Steps * StepFeatures.Count];
        var reader = new StepFeatures(curves, onsets, new NoteAccents(notes, curves.Frames), model.Habits);
        Parallel.For(0, graph.Steps, new ParallelOptions { CancellationToken = cancellation }, s =>
            reader.Fill(graph.Frame(graph.End(s)), graph.Interval(s), features.AsSpan(s * StepFeatures.Count, StepFeatures.Count)));
        if (bands.Frames == 0)
            return new(graph, features, [], new float[graph.Steps * BarModel.Places]);
        var coarse = new RowLattice<MaxOf>(graph, BarPlaces.None, model.Costs, StepScores(features, graph.Steps, model));
        var (before, after) = coarse.Neighbours();
        var reading = new StepClues(curves, graph, new StepSound(graph, bands, cancellation), before, after);
        var clues = new float[graph.Steps * StepClues.Count];
        Parallel.For(0, graph.Steps, new ParallelOptions { CancellationToken = cancellation }, s =>
            reading.Fill(s, clues.AsSpan(s * StepClues.Count, StepClues.Count)));
        return new(graph, features, clues, Weigh(clues, graph.Steps, model));
    }

    /// <summary>What the clues say of each place, about their mean.</summary>
    public static float[] Weigh(float[] clues, int steps, BeatModel model)
    {
        var places = new float[steps * BarModel.Places];
        Parallel.For(0, steps, s =>
        {
            Span<float> row = stackalloc float[StepClues.Count];
            clues.AsSpan(s * StepClues.Count, StepClues.Count).CopyTo(row);
            var said = model.Places.Weigh(row);
            TensorPrimitives.Subtract(said, TensorPrimitives.Sum<float>(said) / said.Length, places.AsSpan(s * BarModel.Places, BarModel.Places));
        });
        return places;
    }

    /// <summary>What speaks for each step whatever its place.</summary>
    public static double[] StepScores(float[] features, int steps, BeatModel model)
    {
        var weights = model.Step.Select(w => (float)w).ToArray();
        var scores = new double[steps];
        for (var s = 0; s < steps; s++)
            scores[s] = TensorPrimitives.Dot<float>(features.AsSpan(s * weights.Length, weights.Length), weights);
        return scores;
    }

    /// <summary>The score of every step at every place; shape (steps × 9).</summary>
    public double[] Scores(PulseEvidence curves, BeatModel model) => Scores(curves, model, Places);

    public double[] Scores(PulseEvidence curves, BeatModel model, float[] places)
    {
        var steps = StepScores(Features, Graph.Steps, model);
        var scores = new double[Graph.Steps * BarModel.Places];
        Span<double> network = stackalloc double[BarModel.Places];
        for (var m = 0; m < Graph.Moments; m++)
        {
            NetworkPlaces(curves, Graph.Frame(m), model, network);
            var (from, to) = Graph.EndingAt(m);
            for (var s = from; s < to; s++)
            {
                for (var p = 0; p < BarModel.Places; p++)
                    scores[s * BarModel.Places + p] = steps[s] + network[p] + model.Clues * places[s * BarModel.Places + p];
            }
        }
        return scores;
    }

    private static void NetworkPlaces(PulseEvidence curves, int frame, BeatModel model, Span<double> into)
    {
        var (first, other) = DownbeatOdds(curves, frame);
        Span<double> kinds = stackalloc double[3];
        MeterOdds(curves, frame, kinds);
        double[] usual = [model.BarsOfTwo, model.BarsOfThree, 0];
        for (var p = 0; p < into.Length; p++)
            into[p] = model.Downbeat * (BarModel.IsDownbeat(p) ? first : other) + model.FeltMeter * kinds[BarModel.KindOf[p]] + usual[BarModel.KindOf[p]];
    }

    private const double UsualDownbeat = 0.3;

    /// <summary>How much more usual the network's word on a frame is on downbeats, and on other beats, than on beats at large; in logarithms.</summary>
    public static (double First, double Other) DownbeatOdds(PulseEvidence curves, int frame)
    {
        var share = StepClues.DownbeatShare(curves, frame);
        return (Math.Log(share / UsualDownbeat), Math.Log((1 - share) / (1 - UsualDownbeat)));
    }

    /// <summary>The part of what speaks for 2/4 that stays there: music in 2/4 is often counted in four.</summary>
    private const double CountedInTwo = 0.35;

    /// <summary>What the network feels of bars of two, three and four, in logarithms.</summary>
    public static void MeterOdds(PulseEvidence curves, int frame, Span<double> into)
    {
        var two = CountedInTwo * curves.Meter[frame, 0];
        into[0] = two + curves.Meter[frame, 3];
        into[1] = curves.Meter[frame, 1];
        into[2] = curves.Meter[frame, 0] - two + curves.Meter[frame, 2] + curves.Meter[frame, 4];
        for (var k = 0; k < into.Length; k++)
            into[k] = Math.Log(3 * (0.05 + into[k]) / 1.15);
    }
}
