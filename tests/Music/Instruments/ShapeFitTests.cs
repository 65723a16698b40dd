using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Instruments.Voicings;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Tests.Instruments;

public class ShapeFitTests
{
    public static TheoryData<string, string, string> OpenPosition => OpenPositionShapes.All;

    // Each shape's pitches, from the same outside table, all heard alike.
    [Theory]
    [MemberData(nameof(OpenPosition))]
    public void PitchesLeadBackToTheirShape(string symbol, string frets, string pitches)
    {
        Assert.NotEmpty(symbol);
        var best = ShapeFit.Find(Heard(pitches), Tuning.Standard, Capo.None)[0];
        Assert.Equal(frets, best.Shape.ToString());
        Assert.Equal(pitches, string.Join(' ', best.Matched.Select(m => Pitch.FromMidi(m, Names(pitches)[m % 12]))));
        Assert.Empty(best.Missing);
        Assert.Empty(best.Extra);
    }

    // Listening loses octaves: C major heard without its upper C and E is still the C shape.
    [Theory]
    [InlineData("C3 E3 G3", "x32010", "C4 E4")]
    [InlineData("E2 B2 E3 G#3", "022100", "B3 E4")]
    public void LostOctavesAreFilledIn(string heard, string frets, string extra)
    {
        var fits = ShapeFit.Find(Heard(heard), Tuning.Standard, Capo.None, new ShapeFitOptions { MaskedCost = 0, UnheardCost = 0, Results = 40, Playing = new() { MinStrings = 5 } });
        var fit = fits.First(f => f.Shape.ToString() == frets);
        Assert.Equal(extra.Split(' ').Select(p => Pitch.Parse(p).Midi), fit.Extra);
    }

    [Fact]
    public void WeakPitchesAreNoiseAndStrongOnesDecide()
    {
        var heard = Heard("A2 E3 A3 C4 E4").ToDictionary();
        heard[Pitch.Parse("F#4").Midi] = 0.05;
        heard[Pitch.Parse("C#4").Midi] = 0.3;
        var best = ShapeFit.Find(heard, Tuning.Standard, Capo.None)[0];
        Assert.Equal("x02210", best.Shape.ToString());
        Assert.Equal([Pitch.Parse("C#4").Midi], best.Missing);
    }

    [Fact]
    public void PitchesThatMustSoundDo()
    {
        var must = Pitch.Parse("C#4").Midi;
        var heard = Heard("A2 E3 A3 C4 E4").ToDictionary();
        heard[must] = 0.3;
        var fits = ShapeFit.Find(heard, Tuning.Standard, Capo.None, new ShapeFitOptions { MustSound = [must] });
        Assert.NotEmpty(fits);
        Assert.All(fits, f => Assert.Contains(must, f.Matched));
    }

    // The same pitches in another tuning or under a capo are another shape: open D strummed open, and C's shape two frets up for D.
    [Theory]
    [InlineData("D2 A2 D3 F#3 A3 D4", "open D", 0, "000000")]
    [InlineData("D3 F#3 A3 D4 F#4", "standard", 2, "x32010")]
    [InlineData("C3 E3", "standard", 0, "x32xxx")]
    public void TuningAndCapoDecideTheShape(string heard, string tuning, int capo, string frets)
    {
        var best = ShapeFit.Find(Heard(heard), TuningCatalogue.Find(tuning)!.Tuning, Capo.At(capo))[0];
        Assert.Equal(frets, best.Shape.ToString());
    }

    [Fact]
    public void TheShapeBeforeDecidesBetweenPlacesOfOnePitch()
    {
        var before = Shape.Parse("x.x.10.12.11.10");
        var near = ShapeFit.Find(Heard("C4"), Tuning.Standard, Capo.None, null, before)[0];
        var alone = ShapeFit.Find(Heard("C4"), Tuning.Standard, Capo.None)[0];
        Assert.Equal("xxxx1x", alone.Shape.ToString());
        Assert.Equal("x.x.10.x.x.x", near.Shape.ToString());
    }

    [Fact]
    public void NothingHeardIsNoShape()
    {
        Assert.Empty(ShapeFit.Find(new Dictionary<int, double>(), Tuning.Standard, Capo.None));
        Assert.Empty(ShapeFit.Find(new Dictionary<int, double> { [20] = 1 }, Tuning.Standard, Capo.None, new ShapeFitOptions { UnheardOctaveFrom = 2 }));
    }

    [Fact]
    public void AStrengthOverOneIsAMistake() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => ShapeFit.Find(new Dictionary<int, double> { [60] = 1.5 }, Tuning.Standard, Capo.None));

    private static IReadOnlyDictionary<int, double> Heard(string pitches) =>
        pitches.Split(' ').Select(p => Pitch.Parse(p).Midi).Distinct().ToDictionary(m => m, _ => 1.0);

    private static Dictionary<int, PitchName> Names(string pitches) =>
        pitches.Split(' ').Select(p => Pitch.Parse(p).Name).DistinctBy(n => n.PitchClass).ToDictionary(n => n.PitchClass);
}
