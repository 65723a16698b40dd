
namespace Harkbook.Audio.Synthesis.Strings;

/// <summary>
/// Coefficients of a string loop for one pitch and decay. The loop's phase delay at the fundamental is exactly one
/// period: a whole delay, a loss filter, six dispersion all-passes and a tuning all-pass whose coefficient is solved
/// at the fundamental itself (Jaffe &amp; Smith, "Extensions of the Karplus-Strong plucked-string algorithm", CMJ 7(2), 1983).
/// The loss filter is the one-pole of Välimäki, Huopaniemi, Karjalainen &amp; Jánosy, "Physical modeling of plucked string
/// instruments with application to real-time sound synthesis", JAES 44(5), 1996.
/// </summary>
internal readonly struct LoopTuning
{
    public const int DispersionStages = 6;

    /// <summary>The partial that is placed exactly; those below it lie a little sharp, those above flat.</summary>
    private const int PlacedPartial = 12;

    private LoopTuning(int delay, double tuning, double gain, double pole, double dispersion) =>
        (Delay, Tuning, Gain, Pole, Dispersion) = (delay, tuning, gain, pole, dispersion);

    public int Delay { get; }

    public double Tuning { get; }

    public double Gain { get; }

    public double Pole { get; }

    public double Dispersion { get; }

    /// <param name="sustain">Seconds for 60 dB at the fundamental.</param>
    /// <param name="highSustain">Seconds for 60 dB at 5 kHz.</param>
    public static LoopTuning For(double frequency, double sustain, double highSustain, double inharmonicity, double rate)
    {
        var w = 2 * Math.PI * frequency / rate;
        var pole = PoleFor(Fall(frequency, Math.Min(sustain, highSustain)) / Fall(frequency, sustain), 2 * Math.PI * Math.Min(5000, 0.4 * rate) / rate);
        var gain = Fall(frequency, sustain) / Magnitude(pole, w);
        var dispersion = DispersionFor(frequency, inharmonicity, rate);
        var remaining = rate / frequency - PhaseDelay(pole, w) - DispersionStages * AllPassDelay(dispersion, w);
        var delay = (int)Math.Floor(remaining - 0.5);
        if (delay < 1)
            throw new ArgumentOutOfRangeException(nameof(frequency), frequency, $"At {rate} Hz a string can't sound so high.");
        var fraction = remaining - delay;
        return new(delay, Math.Sin((1 - fraction) * w / 2) / Math.Sin((1 + fraction) * w / 2), gain, pole, dispersion);
    }

    /// <summary>Gain of one trip around the loop for a 60 dB decay time.</summary>
    private static double Fall(double frequency, double sustain) => Math.Pow(10, -3 / (frequency * sustain));

    /// <summary>The pole that gives the gain at w a ratio to the gain at 0.</summary>
    private static double PoleFor(double ratio, double w)
    {
        var r = ratio * ratio;
        if (r > 1 - 1e-9)
            return 0;
        var middle = 1 - r * Math.Cos(w);
        return (middle - Math.Sqrt(middle * middle - (1 - r) * (1 - r))) / (1 - r);
    }

    private static double Magnitude(double pole, double w) => (1 - pole) / Math.Sqrt(1 - 2 * pole * Math.Cos(w) + pole * pole);

    private static double PhaseDelay(double pole, double w) => Math.Atan2(pole * Math.Sin(w), 1 - pole * Math.Cos(w)) / w;

    /// <summary>Phase delay of (c + z⁻¹)/(1 + c·z⁻¹).</summary>
    private static double AllPassDelay(double c, double w) => 1 - 2 * Math.Atan2(c * Math.Sin(w), 1 + c * Math.Cos(w)) / w;

    /// <summary>All-passes that delay the low partials more, so that a high partial is as sharp as stiffness makes it.</summary>
    private static double DispersionFor(double frequency, double inharmonicity, double rate)
    {
        var partial = Math.Floor(Math.Min(PlacedPartial, 0.3 * rate / frequency));
        if (inharmonicity <= 0 || partial < 2)
            return 0;
        var stretch = Math.Sqrt((1 + inharmonicity * partial * partial) / (1 + inharmonicity));
        var wanted = rate / frequency * (1 - 1 / stretch);
        var (w1, wn) = (2 * Math.PI * frequency / rate, 2 * Math.PI * frequency * partial * stretch / rate);
        var (low, high) = (-0.9, 0.0);
        for (var i = 0; i < 40; i++)
        {
            var c = (low + high) / 2;
            if (DispersionStages * (AllPassDelay(c, w1) - AllPassDelay(c, wn)) > wanted)
                low = c;
            else
                high = c;
        }
        return high;
    }
}
