using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Synthesis;

/// <summary>A second-order filter that runs sample by sample. Frequencies near or above half the rate count as just below it.</summary>
internal struct RunningFilter(Biquad design)
{
    private readonly Biquad design = design;
    private double s1, s2;

    /// <summary>Peak gain 1 at the centre.</summary>
    public static RunningFilter BandPass(double centre, double q, SampleRate rate) => new(Biquad.BandPass(rate, Below(centre, rate), q));

    public static RunningFilter HighPass(double corner, double q, SampleRate rate) => new(Biquad.HighPass(rate, Below(corner, rate), q));

    public double Next(double x)
    {
        var y = design.B0 * x + s1;
        s1 = design.B1 * x - design.A1 * y + s2;
        s2 = design.B2 * x - design.A2 * y;
        return y;
    }

    private static Hertz Below(double frequency, SampleRate rate) => Hertz.FromHertz(Math.Min(frequency, 0.49 * rate.Hertz));
}
