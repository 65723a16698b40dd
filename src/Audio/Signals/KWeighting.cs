using Harkbook.Units;

namespace Harkbook.Audio.Signals;

/// <summary>
/// The two filters of ITU-R BS.1770-4, annex 1, at any rate: the bilinear design whose values at 48 kHz are the standard's tables.
/// </summary>
internal static class KWeighting
{
    /// <summary>The shelf that stands for the head.</summary>
    public static Biquad Head(SampleRate rate)
    {
        const double corner = 1681.974450955533, gain = 3.999843853973347, q = 0.7071752369554196, middleShare = 0.4996667741545416;
        var k = Math.Tan(Math.PI * corner / rate.Hertz);
        var high = Math.Pow(10, gain / 20);
        var middle = Math.Pow(high, middleShare);
        var a0 = 1 + k / q + k * k;
        return new(
            (high + middle * k / q + k * k) / a0, 2 * (k * k - high) / a0, (high - middle * k / q + k * k) / a0,
            2 * (k * k - 1) / a0, (1 - k / q + k * k) / a0);
    }

    /// <summary>The high-pass, whose numerator the standard leaves at 1, −2, 1.</summary>
    public static Biquad LowCut(SampleRate rate)
    {
        const double corner = 38.13547087602444, q = 0.5003270373238773;
        var k = Math.Tan(Math.PI * corner / rate.Hertz);
        var a0 = 1 + k / q + k * k;
        return new(1, -2, 1, 2 * (k * k - 1) / a0, (1 - k / q + k * k) / a0);
    }
}
