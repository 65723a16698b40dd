using Harkbook.Music.Instruments.Strings;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Instruments;

/// <summary>Strings as they are sold, against physics worked by hand.</summary>
public class GaugeSetTests
{
    private static readonly GaugedString First = GaugeSet.All.Single(s => s.Name == "steel light").Strings[^1];

    [Fact]
    public void APlainStringIsAsStiffAsItsDiameterMakesIt()
    {
        // By hand from π³·E·d⁴ / (64·T·L²), Fletcher and Rossing chapter 2: d = 0.305 mm, E = 200 GPa, T = 104 N, L = 0.648 m:
        // 31.006 · 2e11 · 8.654e-15 / (64 · 104 · 0.41990) = 5.3664e-2 / 2794.9 = 1.920e-5.
        Assert.Equal(1.920e-5, First.Inharmonicity, 0.002e-5);
    }

    [Theory]
    // B goes with 1/(T·L²): twelve frets up L halves, so B is fourfold; an octave down T falls to a quarter, fourfold too.
    [InlineData(64, 12, 4)]
    [InlineData(52, 0, 4)]
    [InlineData(62, 2, 1.5874)]
    public void LooserOrShorterIsStiffer(int open, int frets, double times) =>
        Assert.Equal(times, First.InharmonicityAt(open, frets) / First.Inharmonicity, 3);

    [Fact]
    public void TensionsOfPlainSteelFollowFromDiameterAndPitch()
    {
        // Mersenne's law with 7850 kg/m³, within a twentieth: makers round diameters.
        foreach (var wire in GaugeSet.All.Where(s => !s.IsNylon).SelectMany(s => s.Strings).Where(w => w.IsPlain))
        {
            var physics = StringWeight.PlainSteel(wire.Outer).Tension(wire.Scale, Hertz.FromHertz(440 * Math.Pow(2, (wire.MadeFor.Midi - 69) / 12.0)));
            Assert.InRange(wire.Tension / physics, 0.95, 1.05);
        }
    }

    [Fact]
    public void AStringFarFromItsPitchIsAnotherOfTheSet()
    {
        var set = GaugeSet.All.Single(s => s.Name == "steel light");
        Assert.Equal("B3", set.For(4, 57).MadeFor.ToString());
        Assert.Equal("E4", set.For(4, 71).MadeFor.ToString());
    }
}
