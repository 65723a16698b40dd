using Harkbook.Listening.Checking;
using Harkbook.Listening.Tests.Proposing;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Tests.Checking;

/// <summary>A song that counts at another level of the heard beat, or in another meter, is weighed in its own bars.</summary>
public class SongLevelTests
{
    private static List<Finding> Check(string song, string heardMeter, double heardTempo, params int[] positions)
    {
        var hearing = HandMade.Hearing(HandMade.Beats(HandMade.Every(60 / heardTempo, 48), positions), [], heardMeter, heardTempo) with
        {
            Tempo = new(new Candidate<double>(heardTempo, 0.75), new Candidate<double>(heardTempo / 2, 0.23)),
        };
        return [.. new Checker(hearing).Check(SongText.Parse(song, "t.hark").Song!).Findings];
    }

    [Fact]
    public void HalfTheHeardTempoHasTheNumberThatListenGives()
    {
        var tempo = Check("title T\ntempo 60\nsection A\nanchors 1 = 0:01\nchords | C | C |", "4/4", 120, 1, 2, 3, 4).Single(f => f.Kind == ClaimKind.Tempo);
        Assert.Equal((Verdict.Doubtful, 0.23), (tempo.Verdict, Math.Round(tempo.Support, 6)));
        Assert.Equal("half of the 120.0 beats a minute heard, 23%", tempo.Heard);
    }

    [Fact]
    public void TheHeardTempoIsSupported()
    {
        var tempo = Check("title T\ntempo 120\nsection A\nanchors 1 = 0:01\nchords | C | C |", "4/4", 120, 1, 2, 3, 4).Single(f => f.Kind == ClaimKind.Tempo);
        Assert.Equal(Verdict.Supported, tempo.Verdict);
    }

    [Fact]
    public void AThirdThatListenDoesNotListIsNotContradicted()
    {
        var found = Check("title T\nmeter 12/8\ntempo 60\nsection A\nanchors 1 = 0:01\nchords | C | C |", "3/4", 180, 1, 2, 3);
        var tempo = found.Single(f => f.Kind == ClaimKind.Tempo);
        Assert.Equal("a third of the 180.0 beats a minute heard", tempo.Heard);
        var meter = found.Single(f => f.Kind == ClaimKind.Meter);
        Assert.Equal((Verdict.Doubtful, "one bar holds 4 of the bars of 3/4 heard"), (meter.Verdict, meter.Heard));
        Assert.All(found.Where(f => f.Kind == ClaimKind.Bar), b => Assert.Equal(Verdict.Supported, b.Verdict));
    }

    [Fact]
    public void ATempoAtNoLevelOfTheHeardOneIsContradicted() =>
        Assert.Equal(Verdict.Contradicted, Check("title T\ntempo 97\nsection A\nchords | C |", "4/4", 120, 1, 2, 3, 4)
            .Single(f => f.Kind == ClaimKind.Tempo).Verdict);
}
