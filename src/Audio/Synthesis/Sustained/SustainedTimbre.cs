using Harkbook.Units;

namespace Harkbook.Audio.Synthesis.Sustained;

/// <summary>
/// How an instrument that is blown or bowed sounds. A whistle is nearly a sine with breath; a bowed string moves as a sawtooth (Helmholtz motion), so that
/// its n-th partial has 1/n of the first's amplitude (Fletcher and Rossing, The Physics of Musical Instruments, chapters 10 and 16; figures from memory).
/// </summary>
public sealed record SustainedTimbre
{
    /// <summary>Each partial has so much of the first's amplitude as its number to minus this power.</summary>
    public required double PartialFall { get; init; }

    /// <summary>Noise of breath or bow beside the tone; 0 to 1.</summary>
    public required double Noise { get; init; }

    /// <summary>Centre of that noise.</summary>
    public required Hertz NoiseCentre { get; init; }

    /// <summary>How long a note takes to speak.</summary>
    public required Seconds Attack { get; init; }

    public static SustainedTimbre Whistle { get; } = new()
    {
        PartialFall = 2.8,
        Noise = 0.03,
        NoiseCentre = Hertz.FromHertz(3000),
        Attack = Seconds.FromMilliseconds(25),
    };

    public static SustainedTimbre Fiddle { get; } = new()
    {
        PartialFall = 1,
        Noise = 0.02,
        NoiseCentre = Hertz.FromHertz(4000),
        Attack = Seconds.FromMilliseconds(45),
    };
}
