using CsCheck;
using Harkbook.Music.Instruments;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Instruments;

public class FingeringTests
{
    private static readonly Gen<Shape> Shapes =
        Gen.Int[-1, 6].Array[6].Select(frets => Shape.Of([.. frets.Select(f => f < 0 ? (int?)null : f)]));

    // Fingers stored with these shapes in @tombatossals/chords-db 0.5.1 (npm, MIT licence); x24432 from memory, common practice.
    [Theory]
    [InlineData("x32010", "032010")]
    [InlineData("x32310", "032410")]
    [InlineData("xx0232", "000132")]
    [InlineData("xx0212", "000213")]
    [InlineData("022100", "023100")]
    [InlineData("320001", "320001")]
    [InlineData("x02220", "001230")]
    [InlineData("133211", "134211")]
    [InlineData("x21202", "021304")]
    [InlineData("xx0231", "000231")]
    [InlineData("xx0211", "000312")]
    [InlineData("x02210", "002310")]
    [InlineData("x02010", "002010")]
    [InlineData("xx3210", "003210")]
    [InlineData("xx0222", "000111")]
    [InlineData("x02120", "002130")]
    [InlineData("332010", "342010")]
    [InlineData("x24432", "013421")]
    public void OpenPositionShapesTakeTheirUsualFingers(string shape, string fingers) =>
        Assert.Equal(fingers, string.Concat(FingeringSolver.Solve(Shape.Parse(shape)).Fingering!.Fingers));

    [Fact]
    public void ABarreSaysWhichFingerLiesAcrossWhichStrings()
    {
        var fingering = FingeringSolver.Solve(Shape.Parse("133211")).Fingering!;
        Assert.Equal([new Barre(1, 1, 0, 5)], fingering.Barres);
        Assert.Equal(4, fingering.FingersUsed);
    }

    [Fact]
    public void AnOpenShapeTakesNoFingers()
    {
        var fingering = FingeringSolver.Solve(Shape.Parse("000000")).Fingering!;
        Assert.Equal((0, 0.0), (fingering.FingersUsed, fingering.Effort.Total));
    }

    // C9 position 4 of the same database, impossible as stored: five single strings and no barre clear of lower frets.
    [Theory]
    [InlineData("8.10.8.7.8.10", "more than four fingers")]
    [InlineData("135135", "more than four fingers")]
    [InlineData("1xxxx7", "fret 1 to fret 7 is a reach of 180 mm")]
    public void ImpossibleShapesSayWhy(string shape, string reason)
    {
        var answer = FingeringSolver.Solve(Shape.Parse(shape), default, Hand.Usual with { LongestReach = Length.FromMillimetres(130) });
        Assert.False(answer.IsPlayable);
        Assert.Contains(reason, Assert.Single(answer.Faults));
    }

    // Reach is in millimetres: 1 to 5 is 126.6 mm on a 650 mm scale and 12 to 16 is 67.0 mm (L(1 − 2^(−n/12))).
    [Theory]
    [InlineData("1xxxx5", false)]
    [InlineData("12.x.x.x.x.16", true)]
    public void TheSameSpanIsEasierUpTheNeck(string shape, bool playable) =>
        Assert.Equal(playable, FingeringSolver.Solve(Shape.Parse(shape)).IsPlayable);

    // Entries of that database with fingers that break the rules, and what breaks.
    [Theory]
    [InlineData("x32010", "032010", "")]
    [InlineData("032030", "023040", "finger 2 is on a higher fret than finger 3")]
    [InlineData("96689x", "010023", "no finger is given")]
    [InlineData("xx4545", "101213", "which is muted")]
    [InlineData("x97788", "111211", "finger 1 is on two frets")]
    [InlineData("76808x", "213030", "an open string lies under finger 3's barre")]
    [InlineData("x32233", "031134", "a lower fret lies under finger 3's barre")]
    public void GivenFingersAreWeighed(string shape, string fingers, string fault)
    {
        var answer = FingeringSolver.Check(Shape.Parse(shape).WithFingers([.. fingers.Select(c => c - '0')]));
        Assert.Equal(fault.Length == 0, answer.IsPlayable);
        Assert.Contains(fault, string.Join("; ", answer.Faults));
    }

    [Fact]
    public void NothingFretsBehindAPartialCapo()
    {
        var capo = Capo.At(2, 1, 2, 3);
        Assert.Contains("behind the capo", FingeringSolver.Solve(Shape.Parse("100000"), capo).Faults[0]);
        Assert.True(FingeringSolver.Solve(Shape.Parse("300000"), capo).IsPlayable);
    }

    // Whatever the solver finds keeps the rules that given fingers are weighed by; a separate piece of code.
    [Fact]
    public void EverySolvedFingeringKeepsTheRules() =>
        Shapes.Sample(shape =>
        {
            var solved = FingeringSolver.Solve(shape);
            return solved.Fingering is not { } fingering
                ? solved.Faults.Length == 1
                : FingeringSolver.Check(shape.WithFingers(fingering.Fingers)).IsPlayable
                    && Enumerable.Range(0, 6).All(i => fingering.Fingers[i] > 0 == shape.Frets[i] > 0);
        });
}
