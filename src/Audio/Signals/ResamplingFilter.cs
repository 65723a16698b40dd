using System.Numerics;
using System.Runtime.InteropServices;
using Harkbook.Units;

namespace Harkbook.Audio.Signals;

/// <summary>
/// A low-pass of windowed sincs, one row of taps for each place that an output sample can have between two input samples.
/// Kaiser's design: J. F. Kaiser, "Nonrecursive digital filter design using the I0-sinh window function" (1974);
/// A. V. Oppenheim and R. W. Schafer, Discrete-Time Signal Processing, section 7.5.
/// </summary>
internal sealed class ResamplingFilter
{
    private const double StopbandDecibels = 120;
    private const double PassbandEdge = 0.92;
    private const int MostRows = 2048;

    private readonly int up;
    private readonly int rows;
    private readonly float[] taps;

    public ResamplingFilter(SampleRate from, SampleRate to)
    {
        var shared = (int)BigInteger.GreatestCommonDivisor(from.Hertz, to.Hertz);
        (up, Down) = (to.Hertz / shared, from.Hertz / shared);
        var nyquist = 0.5 * Math.Min(1, (double)to.Hertz / from.Hertz);
        var transition = nyquist * (1 - PassbandEdge);
        Half = (int)Math.Ceiling((StopbandDecibels - 7.95) / (14.36 * transition) / 2 / 4) * 4;
        rows = Math.Min(up, MostRows);
        taps = Design(nyquist - transition / 2);
    }

    /// <summary>Input samples used on each side of an output sample.</summary>
    public int Half { get; }

    /// <summary>Output sample n lies at input sample n·Down/Up.</summary>
    public int Down { get; }

    public int Up => up;

    /// <summary>The value at a fraction phase/Up after input[Half − 1]; input has 2·Half samples.</summary>
    public float At(ReadOnlySpan<float> input, int phase)
    {
        if (rows == up)
            return Dot(input, Row(phase));
        var place = (double)phase * rows / up;
        var row = (int)place;
        var share = (float)(place - row);
        return (1 - share) * Dot(input, Row(row)) + share * Dot(input, Row(row + 1));
    }

    private ReadOnlySpan<float> Row(int row) => taps.AsSpan(row * 2 * Half, 2 * Half);

    private float[] Design(double cutoff)
    {
        var table = new float[(rows + 1) * 2 * Half];
        var beta = 0.1102 * (StopbandDecibels - 8.7);
        Parallel.For(0, rows + 1, row => FillRow(table.AsSpan(row * 2 * Half, 2 * Half), (double)row / rows, cutoff, beta));
        return table;
    }

    private void FillRow(Span<float> row, double fraction, double cutoff, double beta)
    {
        var values = new double[row.Length];
        for (var i = 0; i < values.Length; i++)
        {
            var time = i - (Half - 1) - fraction;
            var edge = time / Half;
            var window = Math.Abs(edge) < 1 ? BesselI0(beta * Math.Sqrt(1 - edge * edge)) : 0;
            values[i] = window * Sinc(2 * cutoff * time);
        }
        var gain = values.Sum();
        for (var i = 0; i < values.Length; i++)
            row[i] = (float)(values[i] / gain);
    }

    private static double Sinc(double x) => Math.Abs(x) < 1e-12 ? 1 : Math.Sin(Math.PI * x) / (Math.PI * x);

    /// <summary>The modified Bessel function of the first kind, order 0, by its power series.</summary>
    private static double BesselI0(double x)
    {
        var (sum, term) = (1.0, 1.0);
        for (var k = 1; term > sum * 1e-17; k++)
        {
            term *= x / (2 * k) * (x / (2 * k));
            sum += term;
        }
        return sum;
    }

    private static float Dot(ReadOnlySpan<float> a, ReadOnlySpan<float> b)
    {
        var sum = Vector<float>.Zero;
        var va = MemoryMarshal.Cast<float, Vector<float>>(a);
        var vb = MemoryMarshal.Cast<float, Vector<float>>(b);
        for (var i = 0; i < va.Length; i++)
            sum += va[i] * vb[i];
        var total = Vector.Sum(sum);
        for (var i = va.Length * Vector<float>.Count; i < a.Length; i++)
            total += a[i] * b[i];
        return total;
    }
}
