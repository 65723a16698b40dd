using System.Numerics.Tensors;

namespace Harkbook.Listening.Reading.Lattices;

/// <summary>The largest.</summary>
internal readonly struct MaxOf : ISummation
{
    public static double Of(double a, double b) => Math.Max(a, b);

    public static double Of(ReadOnlySpan<double> all) => TensorPrimitives.Max(all);

    public static void Join(ReadOnlySpan<double> other, Span<double> into) => TensorPrimitives.Max(other, into, into);
}
