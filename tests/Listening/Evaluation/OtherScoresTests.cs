using Harkbook.Listening.Evaluation;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Tests.Evaluation;

/// <summary>Expected values: mir_eval 0.7's own fixtures, and small pairs run through mir_eval 0.7.</summary>
public class OtherScoresTests
{
    public static TheoryData<string> Ten => Fixture.Numbers(10);

    public static TheoryData<string> Four => Fixture.Numbers(4);

    [Theory]
    [MemberData(nameof(Ten))]
    public void OnsetScoresEqualThePublishedOnes(string number)
    {
        var score = Matching.Events(Fixture.Column("onset", $"ref{number}.txt"), Fixture.Column("onset", $"est{number}.txt"), 0.05);
        Assert.Equal(Fixture.Expected("onset", number, "Precision"), score.Precision, 1e-10);
        Assert.Equal(Fixture.Expected("onset", number, "Recall"), score.Recall, 1e-10);
        Assert.Equal(Fixture.Expected("onset", number, "F-measure"), score.F, 1e-10);
    }

    [Theory]
    [InlineData(1.05, 1)]
    [InlineData(1.0501, 0)]
    public void AnOnsetAtTheWindowsEdgeCounts(double estimated, double f) => Assert.Equal(f, Matching.Events([1.0], [estimated], 0.05).F);

    [Fact]
    public void OneTrueOnsetIsNotFoundTwice()
    {
        var score = Matching.Events([1.0], [0.98, 1.02], 0.05);
        Assert.Equal((0.5, 1.0), (score.Precision, score.Recall));
    }

    [Theory]
    [MemberData(nameof(Ten))]
    public void BoundaryScoresEqualThePublishedOnes(string number)
    {
        var (reference, estimated) = (Boundaries($"ref{number}.lab"), Boundaries($"est{number}.lab"));
        Assert.Equal(Fixture.Expected("segment", number, "F-measure@0.5"), BoundaryScores.FMeasure(reference, estimated, 0.5).F, 1e-10);
        Assert.Equal(Fixture.Expected("segment", number, "F-measure@3.0"), BoundaryScores.FMeasure(reference, estimated, 3).F, 1e-10);
    }

    [Theory]
    [MemberData(nameof(Ten))]
    public void KeyScoresEqualThePublishedOnes(string number) =>
        Assert.Equal(Fixture.Expected("key", number, "Weighted Score"), KeyScore.Weighted(KeyOf($"ref{number}.txt"), KeyOf($"est{number}.txt")));

    [Theory]
    [MemberData(nameof(Four))]
    public void TempoScoresEqualThePublishedOnes(string number)
    {
        var reference = Fixture.Rows("tempo", $"ref{number}.lab").SelectMany(r => r).Select(Fixture.Number).ToArray();
        var estimated = Fixture.Rows("tempo", $"est{number}.lab").SelectMany(r => r).Select(Fixture.Number).ToArray();
        Assert.Equal(Fixture.Expected("tempo", number, "P-score"),
            TempoScore.PScore((reference[0], reference[1]), reference[2], (estimated[0], estimated[1])), 1e-10);
    }

    [Theory]
    [InlineData(120, 60, true)]
    [InlineData(120, 124.7, true)]
    [InlineData(120, 126, false)]
    [InlineData(120, 90, false)]
    public void ATempoMayBeAnOctaveOff(double reference, double estimated, bool agrees) =>
        Assert.Equal(agrees, TempoScore.WithinAnOctave(reference, estimated));

    private static IEnumerable<double> Boundaries(string file) =>
        Fixture.Rows("segment", file).SelectMany(r => new[] { Fixture.Number(r[0]), Fixture.Number(r[1]) });

    private static Key KeyOf(string file)
    {
        var words = Fixture.Rows("key", file)[0];
        var tonic = char.ToUpperInvariant(words[0][0]) + words[0][1..];
        return Key.Parse($"{tonic} {words[1]}");
    }
}
