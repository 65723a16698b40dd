using Microsoft.ML.OnnxRuntime;

namespace Harkbook.Listening.Estimators;

/// <summary>Keeps a network's outputs in the same arrays from piece to piece while pieces are of one size: made anew each time, they would wait for the
/// collector by the hundred megabytes.</summary>
internal sealed class OutputBuffers(int outputs)
{
    private readonly float[][] buffers = [.. Enumerable.Repeat(Array.Empty<float>(), outputs)];

    /// <summary>An output's values, which stand until the next run of the same size.</summary>
    public float[] Take(int output, OrtValue value)
    {
        var values = value.GetTensorDataAsSpan<float>();
        if (buffers[output].Length != values.Length)
            buffers[output] = new float[values.Length];
        values.CopyTo(buffers[output]);
        return buffers[output];
    }
}
