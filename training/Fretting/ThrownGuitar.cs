using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Training.Fretting;

/// <summary>A guitar with gauge, core, scale length and age thrown: how stiff each of its strings is in each place.</summary>
internal sealed class ThrownGuitar
{
    private readonly double[] openB;
    private readonly int capo;

    public ThrownGuitar(Random random, Tuning tuning, Capo capo)
    {
        Set = GaugeSet.All[random.Next(GaugeSet.All.Length)];
        Age = random.NextDouble();
        this.capo = capo.Fret;
        // Scales from 620 to 660 mm; B goes with the fourth power of length and, of a wound string, of its core.
        var scale = 620 + 40 * random.NextDouble();
        openB = [.. tuning.Strings.Select((pitch, s) => Thrown(random, Set.For(s, pitch.Midi), pitch.Midi, scale))];
    }

    public GaugeSet Set { get; }

    /// <summary>0 new, 1 dull.</summary>
    public double Age { get; }

    public double LogB(int stringIndex, int fret) => Math.Log10(openB[stringIndex] * Math.Pow(2, (fret + capo) / 6.0));

    /// <summary>At the nut, as tuned.</summary>
    public double LogOpen(int stringIndex) => Math.Log10(openB[stringIndex]);

    private static double Thrown(Random random, GaugedString wire, int open, double scale) =>
        wire.InharmonicityAt(open) * Math.Pow(wire.Scale.Millimetres / scale, 4)
            * Math.Exp(0.06 * Normal(random)) * Math.Pow(1 + (wire.IsPlain ? 0.01 : 0.07) * Normal(random), 4);

    public static double Normal(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
