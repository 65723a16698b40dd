using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Instruments.Strings;

/// <summary>A string as it is sold for a pitch: what makes it stiff.</summary>
/// <param name="MadeFor">The open pitch that it is sold for.</param>
/// <param name="IsPlain">Of one piece, not wound.</param>
/// <param name="Core">A plain string's own diameter, a wound one's core's.</param>
/// <param name="Gigapascals">The core's modulus of elasticity (Young's).</param>
/// <param name="Tension">At that pitch on that scale.</param>
/// <param name="Source">In the marks that data/string-sets.tsv explains.</param>
public sealed record GaugedString(
    Pitch MadeFor, bool IsPlain, Length Outer, Length Core, double Gigapascals, Newtons Tension, Length Scale, string Source)
{
    /// <summary>
    /// B of the open string at its pitch: π³·E·d⁴ / (64·T·L²) (Fletcher and Rossing, "The Physics of Musical Instruments", chapter 2). Its partials
    /// lie at n·f₁·√(1 + B·n²)/√(1 + B).
    /// </summary>
    public double Inharmonicity => Math.Pow(Math.PI, 3) * Gigapascals * 1e9 * Math.Pow(Core.Millimetres / 1000, 4)
        / (64 * Tension.Value * Math.Pow(Scale.Millimetres / 1000, 2));

    /// <summary>
    /// B where the open string is tuned to another pitch, and where it is stopped: tension goes with the square of frequency, length against it.
    /// </summary>
    /// <param name="open">The open string's MIDI number.</param>
    /// <param name="fretsFromNut">Where a capo or a finger stops it.</param>
    public double InharmonicityAt(int open, int fretsFromNut = 0) => Inharmonicity * Math.Pow(2, (MadeFor.Midi - open + fretsFromNut) / 6.0);
}
