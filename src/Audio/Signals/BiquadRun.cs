namespace Harkbook.Audio.Signals;

/// <summary>A filter that goes on from block to block of one channel; it starts at rest.</summary>
internal sealed class BiquadRun(Biquad filter)
{
    private double first, second;

    /// <summary>Filters the next block in place.</summary>
    public void Run(Span<float> block)
    {
        foreach (ref var sample in block)
        {
            double x = sample;
            var y = filter.B0 * x + first;
            first = filter.B1 * x - filter.A1 * y + second;
            second = filter.B2 * x - filter.A2 * y;
            sample = (float)y;
        }
    }
}
