using Harkbook.Listening.Checking;
using Harkbook.Listening.Evidence;
using Harkbook.Listening.Interchange;

namespace Harkbook.Listening.Tests.Checking;

/// <summary>
/// What is heard of other claims bears on one: the same silence says less where a part is hardly heard at all, and a heard note that isn't written says less
/// where much is heard that isn't (Bayes's rule, with how often right claims are heard for the likelihood).
/// </summary>
public class NeighboursTests
{
    private static double LogOdds(ClaimKind kind, IEnumerable<ScoredNote> written, params (int Midi, double Onset)[] heard) =>
        new Checker(PluckedEvidence.Of(heard)) { TellsAll = true }.Check(new Annotation { Notes = [.. written] }).Findings
            .Where(f => f.Kind == kind && Math.Abs(f.Where!.Time.Value - 5) < 0.01)
            .Select(f => f.LogOdds!.Value).DefaultIfEmpty(double.PositiveInfinity).Single();

    private static IEnumerable<ScoredNote> Every(int midi) => Enumerable.Range(1, 9).Select(i => new ScoredNote(i, i + 0.3, midi));

    [Fact]
    public void AnUnheardNoteIsDoubtedLessWhereItsLikeIsUnheard()
    {
        var others = Every(60).Where(n => n.Onset != 5).Select(n => ((int)n.Midi, n.Onset)).ToArray();
        Assert.True(LogOdds(ClaimKind.Note, Every(60)) > LogOdds(ClaimKind.Note, Every(60), others));
    }

    [Fact]
    public void ANoteLeftOutIsTakenForOneLessWhereMuchElseIsHeard()
    {
        (int, double)[] missing = [(67, 5)], much = [.. missing, .. Enumerable.Range(1, 9).Select(i => (65 + i % 3, i + 0.5))];
        Assert.True(LogOdds(ClaimKind.Silence, Every(52), missing) < LogOdds(ClaimKind.Silence, Every(52), much));
    }
}
