using System.Numerics.Tensors;

namespace Harkbook.Listening.Reading.Lattices;

/// <summary>The log of the sum of the exponentials, without leaving the range of numbers.</summary>
internal readonly struct LogSumOf : ISummation
{
    public static double Of(double a, double b)
    {
        var (low, high) = a < b ? (a, b) : (b, a);
        return double.IsNegativeInfinity(low) ? high : high + Math.Log(1 + Math.Exp(low - high));
    }

    public static double Of(ReadOnlySpan<double> all)
    {
        var top = TensorPrimitives.Max(all);
        if (double.IsNegativeInfinity(top))
            return top;
        var sum = 0.0;
        foreach (var value in all)
            sum += Math.Exp(value - top);
        return top + Math.Log(sum);
    }

    public static void Join(ReadOnlySpan<double> other, Span<double> into)
    {
        for (var i = 0; i < into.Length; i++)
            into[i] = Of(other[i], into[i]);
    }
}
