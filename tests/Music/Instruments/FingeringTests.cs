using System.Runtime.CompilerServices;
using CsCheck;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory.Symbols;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Instruments;

public class FingeringTests
{
    private static readonly Gen<Shape> Shapes =
        Gen.Int[-1, 6].Array[6].Select(frets => Shape.Of([.. frets.Select(f => f < 0 ? (int?)null : f)]));

    public static TheoryData<string, string, string, string> Published { get; } = [.. File.ReadLines(Path.Combine(Folder(), "../../../data/common-shapes.tsv"))
        .Where(l => !l.StartsWith('#')).Select(l => l.Split('\t')).Select(c => (c[0], c[1], c[2], c[3]))];

    /// <summary>Held as the chord that it comes from is (E before Esus4); the search sees one shape at a time.</summary>
    private static readonly string[] TaughtFromAnother = ["022200"];

    // The table names its sources.
    [Theory]
    [MemberData(nameof(Published))]
    public void CommonShapesAreFingeredAsTheyAreTaught(string instrument, string chord, string frets, string taught)
    {
        var hand = FrettedInstrument.Find(instrument)!.Hand;
        var fingers = string.Concat(FingeringSolver.Solve(Shape.Parse(frets), default, hand).Fingering!.Fingers);
        Assert.True(taught.Split("; ").Any(t => t.Split(' ')[0] == fingers) != TaughtFromAnother.Contains(frets),
            $"{instrument} {chord} {frets}: {fingers}, taught as {taught}");
    }

    // The table itself: at least fifty shapes, each the chord it is said to be, each way of holding it one that a hand can hold.
    [Fact]
    public void TheTableHoldsChordsThatHandsHold()
    {
        Assert.True(Published.Count >= 50);
        Assert.All(Published.Select(row => row.Data), row =>
        {
            var tuning = TuningCatalogue.All.First(t => t.Instrument == row.Item1).Tuning;
            var shape = Shape.Parse(row.Item3);
            Assert.Subset(ChordSymbol.Read(row.Item2).PitchClasses.ToHashSet(), shape.PitchClasses(tuning, default)
                .Where(p => row.Item1 != "five-string banjo" || p != 7).ToHashSet());
            Assert.All(row.Item4.Split("; "),
                taught => Assert.Empty(FingeringSolver.Check(shape.WithFingers([.. taught.Split(' ')[0].Select(c => c - '0')]), default,
                Hand.On(tuning)).Faults));
        });
    }

    // A shape is held alike on the bare neck and under a capo (common practice), and the same up the neck where no open string sounds.
    [Theory]
    [InlineData("x32010", 3)]
    [InlineData("xx0232", 2)]
    [InlineData("x13331", 1)]
    public void ACapoLeavesTheFingers(string frets, int fret) =>
        Assert.Equal(FingeringSolver.Solve(Shape.Parse(frets)).Fingering!.Fingers, FingeringSolver.Solve(Shape.Parse(frets), Capo.At(fret)).Fingering!.Fingers);

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

    private static string Folder([CallerFilePath] string here = "") => Path.GetDirectoryName(here)!;
}
