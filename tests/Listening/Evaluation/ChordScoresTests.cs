using Harkbook.Listening.Evaluation;
using Harkbook.Listening.Interchange;

namespace Harkbook.Listening.Tests.Evaluation;

/// <summary>Expected values: mir_eval 0.7's own fixtures and the single pairs of its tests/test_chord.py.</summary>
public class ChordScoresTests
{
    public static TheoryData<string> Numbers => Fixture.Numbers(10);

    private static readonly Dictionary<string, Func<string, string, bool?>> Comparisons = new()
    {
        ["root"] = ChordComparison.Root,
        ["thirds"] = ChordComparison.Thirds,
        ["triads"] = ChordComparison.Triads,
        ["tetrads"] = ChordComparison.Tetrads,
        ["majmin"] = ChordComparison.MajorMinor,
        ["majmin_inv"] = ChordComparison.MajorMinorWithBass,
        ["sevenths"] = ChordComparison.Sevenths,
        ["sevenths_inv"] = ChordComparison.SeventhsWithBass,
        ["mirex"] = ChordComparison.ThreeShared,
    };

    [Theory]
    [MemberData(nameof(Numbers))]
    public void RecallEqualsThePublishedOne(string number)
    {
        var (reference, estimated) = (Spans($"ref{number}.lab"), Spans($"est{number}.lab"));
        Assert.All(Comparisons, c => Assert.Equal(
            Fixture.Expected("chord", number, c.Key), ChordScores.Recall(reference, estimated, c.Value), 1e-9));
    }

    [Theory]
    [InlineData("majmin", "N", "N", true)]
    [InlineData("majmin", "C:maj", "N", false)]
    [InlineData("majmin", "C:maj", "C:aug", false)]
    [InlineData("majmin", "G:maj7", "G", true)]
    [InlineData("majmin", "C:aug", "C:maj", null)]
    [InlineData("majmin", "X", "N", null)]
    [InlineData("majmin_inv", "C:7", "C:maj", true)]
    [InlineData("majmin_inv", "C:maj7/5", "C:maj/5", true)]
    [InlineData("majmin_inv", "G:min", "G:min/b3", false)]
    [InlineData("majmin_inv", "C:maj/4", "C:maj/4", null)]
    [InlineData("majmin_inv", "C:hdim7/b3", "C:min/b3", null)]
    [InlineData("sevenths", "C:min", "C:min7", false)]
    [InlineData("sevenths", "C:maj", "C:maj6", false)]
    [InlineData("sevenths", "C:7", "C:9", true)]
    [InlineData("sevenths", "C:7/3", "C:11/b7", true)]
    [InlineData("sevenths", "C:7", "C:maj7", false)]
    [InlineData("sevenths", "C:sus2", "C:maj", null)]
    [InlineData("sevenths", "C:hdim7", "C:hdim7", null)]
    [InlineData("thirds", "C:maj", "C:aug", true)]
    [InlineData("thirds", "C:min", "C:dim", true)]
    [InlineData("thirds", "C:maj", "C:sus4", true)]
    [InlineData("thirds", "G:min", "G:sus2", false)]
    [InlineData("triads", "C:min", "C:min7", true)]
    [InlineData("triads", "C:maj", "C:sus4", false)]
    [InlineData("triads", "C:min", "C:hdim7", false)]
    [InlineData("triads", "C:min", "C:min6", true)]
    [InlineData("tetrads", "C:7", "C:9", true)]
    [InlineData("tetrads", "C:maj7", "C:maj7/5", true)]
    [InlineData("tetrads", "C:maj", "C:maj6", false)]
    [InlineData("mirex", "C:maj", "C:maj6", true)]
    [InlineData("mirex", "C:maj7", "C:minmaj7", true)]
    [InlineData("mirex", "A:maj", "A:7", true)]
    [InlineData("mirex", "C:min", "C:hdim7", false)]
    [InlineData("mirex", "F:maj", "F:min6", false)]
    [InlineData("mirex", "C:5", "C:maj", null)]
    public void OnePairIsJudgedAsPublished(string comparison, string reference, string estimated, bool? expected) =>
        Assert.Equal(expected, Comparisons[comparison](reference, estimated));

    [Fact]
    public void BoundariesHalfASecondLateCostTheirTime()
    {
        // check: run through mir_eval 0.7, root .8125, mirex .875
        string[] labels = ["C:maj", "A:min7", "F:maj/3", "G:7"];
        AnnotatedSpan[] reference = [.. labels.Select((l, i) => new AnnotatedSpan(2 * i, 2 * i + 2, l))];
        AnnotatedSpan[] late = [.. labels.Select((l, i) => new AnnotatedSpan(i == 0 ? 0 : 2 * i + 0.5, i == 3 ? 8 : 2 * i + 2.5, l))];
        Assert.Equal(0.8125, ChordScores.Recall(reference, late, ChordComparison.Root), 1e-9);
        Assert.Equal(0.875, ChordScores.Recall(reference, late, ChordComparison.ThreeShared), 1e-9);
    }

    private static AnnotatedSpan[] Spans(string file) =>
        [.. Fixture.Rows("chord", file).Select(r => new AnnotatedSpan(Fixture.Number(r[0]), Fixture.Number(r[1]), r[2]))];
}
