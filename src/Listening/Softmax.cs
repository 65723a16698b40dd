using System.Numerics.Tensors;

namespace Harkbook.Listening;

/// <summary>From log scores to probabilities that sum to 1. The largest score is taken from all first, so that none overflows.</summary>
internal static class Softmax
{
    public static double[] Of(ReadOnlySpan<double> logs)
    {
        var chances = new double[logs.Length];
        Into(logs, chances);
        return chances;
    }

    /// <param name="chances">May be <paramref name="logs"/> itself.</param>
    public static void Into(ReadOnlySpan<double> logs, Span<double> chances)
    {
        TensorPrimitives.Subtract(logs, TensorPrimitives.Max(logs), chances);
        TensorPrimitives.SoftMax(chances, chances);
    }
}
