using Harkbook.Listening.Estimators;
using Harkbook.Listening.Estimators.Beats;
using Harkbook.Listening.Estimators.Beats.Rows;

namespace Harkbook.Training.BeatChecks;

/// <summary>The small network of places in the bar as it is being fitted: one hidden layer, all its numbers in one vector.</summary>
internal sealed class PlaceNetwork
{
    private const int In = StepClues.Count, Out = BarModel.Places;

    private readonly int units;

    public PlaceNetwork(float[] mean, float[] scale, double[] values) =>
        (Mean, Scale, Values, units) = (mean, scale, values, (values.Length - Out) / (In + 1 + Out));

    public float[] Mean { get; }

    public float[] Scale { get; }

    /// <summary>Hidden biases, hidden weights, output biases, output weights.</summary>
    public double[] Values { get; }

    public float[] HiddenBias => Part(0, units);

    public float[][] Hidden => [.. Enumerable.Range(0, units).Select(u => Part(units + u * In, In))];

    public float[] OutputBias => Part(units * (In + 1), Out);

    public float[][] Output => [.. Enumerable.Range(0, Out).Select(o => Part(units * (In + 1) + Out + o * units, units))];

    public SmallNetwork Network => SmallNetwork.Of(Mean, Scale, HiddenBias, Hidden, OutputBias, Output);

    /// <summary>Adds how a sum of outputs grows with every number, where each output grows by so much.</summary>
    public void Grow(ReadOnlySpan<float> clues, ReadOnlySpan<double> outputs, double[] growth)
    {
        var x = new double[In];
        for (var i = 0; i < In; i++)
            x[i] = (clues[i] - Mean[i]) * Scale[i];
        var outs = units * (In + 1);
        var mean = 0.0;
        foreach (var g in outputs)
            mean += g / Out;
        for (var u = 0; u < units; u++)
        {
            var sum = Values[u];
            for (var i = 0; i < In; i++)
                sum += Values[units + u * In + i] * x[i];
            if (sum <= 0)
                continue;
            var back = 0.0;
            for (var o = 0; o < Out; o++)
            {
                var g = outputs[o] - mean;
                growth[outs + Out + o * units + u] += g * sum;
                back += g * Values[outs + Out + o * units + u];
            }
            growth[u] += back;
            for (var i = 0; i < In; i++)
                growth[units + u * In + i] += back * x[i];
        }
        for (var o = 0; o < Out; o++)
            growth[outs + o] += outputs[o] - mean;
    }

    private float[] Part(int from, int count) => [.. Values.AsSpan(from, count).ToArray().Select(v => (float)v)];
}
