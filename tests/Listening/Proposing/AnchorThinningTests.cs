using System.Collections.Immutable;
using CsCheck;
using Harkbook.Listening.Proposing;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Proposing;

/// <summary>Checked from outside: the song's own clock must find every beat, and no smaller choice of bars may do so.</summary>
public class AnchorThinningTests
{
    private const double Tolerance = 0.025;

    /// <summary>Beats whose length drifts slowly, as a player's does.</summary>
    private static readonly Gen<double[]> Drifting =
        from bars in Gen.Int[1, 7]
        from drift in Gen.Double[-0.006, 0.006].Array[bars * 4]
        select Times(drift);

    [Fact]
    public void EveryHeardBeatLiesWithinTheTolerance() => Drifting.Sample(times =>
    {
        var song = SongProposer.Propose(HandMade.Hearing(HandMade.Beats(times, 1, 2, 3, 4), []), "T", "t.wav");
        var clock = new SongClock(song);
        for (var i = 0; i < times.Length; i++)
            Assert.InRange(clock.TimeOf(1 + i / 4, Beats.Whole(i % 4)).Value - times[i], -Tolerance - 0.001, Tolerance + 0.001);
    }, iter: 300);

    [Fact]
    public void NoFewerAnchorsWouldDo() => Drifting.Sample(times =>
    {
        var anchors = SongProposer.Propose(HandMade.Hearing(HandMade.Beats(times, 1, 2, 3, 4), []), "T", "t.wav").Sections.Single().Anchors;
        var line = times.Append(anchors[^1].At.Value).ToImmutableArray();
        var candidates = Enumerable.Range(0, times.Length / 4 + 1).Select(i => i * 4).ToList();
        // Anchors are written in whole milliseconds, so a line that just fits may be judged either way.
        Assert.InRange(anchors.Length, Fewest(line, candidates, times.Length, Tolerance + 0.001), Fewest(line, candidates, times.Length, Tolerance - 0.001));
    }, iter: 300);

    [Fact]
    public void AChangeOfTempoIsAnchoredWhereItHappens()
    {
        var times = HandMade.Every(0.5, 16).Concat(HandMade.Every(0.6, 16, 9)).ToArray();
        var song = SongProposer.Propose(HandMade.Hearing(HandMade.Beats(times, 1, 2, 3, 4), []), "T", "t.wav");
        Assert.Equal([(1, 1.0), (5, 9.0), (9, 18.6)], song.Sections.Single().Anchors.Select(a => (a.Bar, a.At.Value)));
    }

    private static int Fewest(ImmutableArray<double> line, List<int> candidates, int heard, double tolerance) =>
        Enumerable.Range(0, 1 << (candidates.Count - 2))
            .Select(mask => candidates.Where((_, i) => i == 0 || i == candidates.Count - 1 || (mask >> (i - 1) & 1) == 1).ToList())
            .Where(some => Fits(line, some, heard, tolerance))
            .Min(some => some.Count);

    private static bool Fits(ImmutableArray<double> line, List<int> anchors, int heard, double tolerance) =>
        anchors.Zip(anchors.Skip(1)).All(p => Enumerable.Range(p.First, p.Second - p.First).Where(b => b < heard).All(b =>
            Math.Abs(line[p.First] + (line[p.Second] - line[p.First]) * (b - p.First) / (p.Second - p.First) - line[b]) <= tolerance));

    private static double[] Times(double[] drift)
    {
        var (time, gap) = (1.0, 0.5);
        return [.. drift.Select(d => (time += gap += d) - gap)];
    }
}
