using System.Collections.Immutable;
using Harkbook.Listening.Proposing.Hands;

namespace Harkbook.Listening.Tests.Proposing.Hands;

/// <summary>Bars of four eighths whose strokes are known because the evidence was written down for them: e against nothing, in logs.</summary>
public class StrokePatternTests
{
    private static readonly ImmutableArray<(bool, bool)> Eighths = [(true, true), (false, false), (true, true), (false, false)];

    [Fact]
    public void ABarKeepsItsSectionsPatternAgainstWeakEvidence()
    {
        var bars = Enumerable.Repeat("d.du", 8).Select(b => Evidence(b, 6)).ToArray();
        bars[3][2] = Place('.', 1);
        Assert.All(Read(bars), bar => Assert.Equal("d.du", bar));
    }

    [Fact]
    public void ABarThatClearlyDiffersIsReadAsItIs()
    {
        var bars = Enumerable.Repeat("d.du", 8).Select(b => Evidence(b, 6)).ToArray();
        bars[7] = Evidence("d..x", 12);
        Assert.Equal([.. Enumerable.Repeat("d.du", 7), "d..x"], Read(bars));
    }

    [Fact]
    public void TwoBarsMayTakeTurns()
    {
        var bars = Enumerable.Range(0, 8).Select(i => Evidence(i % 2 == 0 ? "d.du" : "dud.", 3)).ToArray();
        Assert.Equal(Enumerable.Range(0, 8).Select(i => i % 2 == 0 ? "d.du" : "dud."), Read(bars));
    }

    [Fact]
    public void WithoutEvidenceForEitherWayTheHandSwings()
    {
        var bars = Enumerable.Repeat(Enumerable.Repeat<double[]>([0, 6, 6, -6], 4).ToArray(), 4).ToArray();
        Assert.All(Read(bars), bar => Assert.Equal("dudu", bar));
    }

    private static IEnumerable<string> Read(double[][][] bars) =>
        new StrokePattern(PlayingModel.Shipped).Read(bars, Eighths).Select(bar => string.Concat(bar.Select(p => ".dux"[(int)p.State])));

    private static double[][] Evidence(string bar, double strength) => [.. bar.Select(c => Place(c, strength))];

    private static double[] Place(char state, double strength) => [.. ".dux".Select(c => c == state ? strength : 0)];
}
