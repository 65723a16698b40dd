using Harkbook.Listening.Evidence;
using Harkbook.Listening.Reading;
using Harkbook.Listening.Tests.Proposing;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Reading;

/// <summary>Evidence is read again where a claim bears on it, and nowhere else.</summary>
public class ReaderTests
{
    private static readonly Hearing Unclaimed = Reader.Read(
        HandMade.Hearing([], []).Recording,
        new SoundEvidence { Notes = HandMade.Evidence(12, (0, 4, [50, 57, 62, 66]), (4, 8, [55, 59, 62, 67]), (8, 12, [57, 61, 64, 69])) },
        Claims.None, TestContext.Current.CancellationToken);

    private static Hearing Again(Claims claims) => Reader.Again(Unclaimed, claims, TestContext.Current.CancellationToken);

    [Fact]
    public void TheSameClaimsReadNothingAnew()
    {
        var again = Again(Claims.None);
        Assert.True(again.Beats == Unclaimed.Beats && again.Keys == Unclaimed.Keys && again.Chords == Unclaimed.Chords);
        Assert.True(again.Sections == Unclaimed.Sections && again.Notes == Unclaimed.Notes && ReferenceEquals(again.Tuning, Unclaimed.Tuning));
    }

    [Fact]
    public void AToldTuningLeavesTheCapoToTheEvidenceAndTheRestAsItWas()
    {
        var told = Tuning.Parse("D2 A2 D3 G3 A3 D4");
        var again = Again(new() { Tuning = told });
        Assert.All(again.Tuning.Candidates, c => Assert.Equal(told, c.Value.Tuning));
        Assert.Distinct(again.Tuning.Candidates.Select(c => c.Value.Capo));
        Assert.True(again.Chords == Unclaimed.Chords && again.Beats == Unclaimed.Beats);
    }

    [Fact]
    public void ATuningOfNoCatalogueMayBeTold() =>
        Assert.Equal("C2 G2 D3 G3 B3 E4", Again(new() { Tuning = Tuning.Parse("C2 G2 D3 G3 B3 E4") }).Tuning.Best.Tuning.ToString());

    [Fact]
    public void AToldCapoLeavesTheTuningToTheEvidence() =>
        Assert.All(Again(new() { Capo = Capo.At(3) }).Tuning.Candidates, c => Assert.Equal(3, c.Value.Capo.Fret));

    [Fact]
    public void BothToldLeaveNoDoubt()
    {
        var read = Again(new() { Tuning = Tuning.Standard, Capo = Capo.At(2) }).Tuning;
        Assert.Equal((1, 1.0, 2), (read.Candidates.Length, read.Confidence, read.Best.Capo.Fret));
    }

    [Fact]
    public void TakingAClaimBackReadsAsBefore()
    {
        var back = Reader.Again(Again(new() { Tuning = Tuning.Parse("D2 A2 D3 G3 A3 D4") }), Claims.None, TestContext.Current.CancellationToken);
        Assert.Equal(Unclaimed.Tuning.Candidates, back.Tuning.Candidates);
        Assert.Equal(Unclaimed.Notes, back.Notes);
    }

    [Fact]
    public void AToldReferencePitchIsTheOneThatIsTold() =>
        Assert.Equal(442, Again(new() { ReferencePitch = Hertz.FromHertz(442) }).ReferencePitch.Best.Value);
}
