using Harkbook.Units;

namespace Harkbook.Audio.Synthesis.Strings;

/// <summary>How a kind of string sounds. Presets stand for common practice; the figures were set by ear and by decay measurements.</summary>
public sealed record StringSet
{
    /// <summary>Time for the fundamental of an 82.4 Hz string (E2) to fall by 60 dB in its slow stage; 0.5 to 30 s.</summary>
    public required Seconds Sustain { get; init; }

    /// <summary>The same for the partials about 5 kHz; shorter is darker.</summary>
    public required Seconds HighSustain { get; init; }

    /// <summary>Where the finger or pick leaves the string, as a share of its length from the bridge; 0.02 to 0.5.</summary>
    public required double PluckPlace { get; init; }

    /// <summary>Corner of the pluck's own low-pass for the softest and the hardest stroke.</summary>
    public required (Hertz Soft, Hertz Hard) PluckBrightness { get; init; }

    /// <summary>B in f(n) = n·f₁·√((1 + B·n²)/(1 + B)) of a string of which nothing else is said; 0 to 0.001.</summary>
    public required double Inharmonicity { get; init; }

    /// <summary>Share of noise in the pluck; 0 to 1.</summary>
    public required double Scrape { get; init; }

    public static StringSet Steel { get; } = new()
    {
        Sustain = Seconds.FromSeconds(9),
        HighSustain = Seconds.FromSeconds(0.8),
        PluckPlace = 0.16,
        PluckBrightness = (Hertz.FromHertz(1400), Hertz.FromHertz(8000)),
        Inharmonicity = 4e-5,
        Scrape = 0.12,
    };

    public static StringSet Nylon { get; } = new()
    {
        Sustain = Seconds.FromSeconds(5.5),
        HighSustain = Seconds.FromSeconds(0.25),
        PluckPlace = 0.2,
        PluckBrightness = (Hertz.FromHertz(700), Hertz.FromHertz(3500)),
        Inharmonicity = 1.5e-5,
        Scrape = 0.05,
    };

    /// <summary>Sustain of the slow stage at a fundamental: higher strings ring shorter.</summary>
    internal double SustainAt(double frequency) => Sustain.Value * Math.Pow(frequency / 82.4, -0.7);
}
