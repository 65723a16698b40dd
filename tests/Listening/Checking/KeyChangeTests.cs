using Harkbook.Listening.Checking;
using Harkbook.Listening.Tests.Proposing;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Tests.Checking;

/// <summary>A change of key is weighed against the key that is heard in its bars.</summary>
public class KeyChangeTests
{
    [Fact]
    public void AChangeIsWeighedWhereItHolds()
    {
        var hearing = HandMade.Hearing(HandMade.Beats(HandMade.Every(0.5, 32), 1, 2, 3, 4), []) with
        {
            Keys = [HandMade.Key("C major", 0, 5, 0.8), HandMade.Key("E minor", 5, 9, 0.9), HandMade.Key("C major", 9, 60, 0.8)],
        };
        var song = SongText.Parse("title T\nkey C major\ntempo 120\nsection A\nanchors 1 = 0:01\nkey E minor from 3\nkey D major from 5\nkey C major from "
            + "7\nchords | C | C | Em | Em | D | D | C | C |", "t.hark").Song!;
        var found = new Checker(hearing).Check(song).Findings.Where(f => f.Kind == ClaimKind.Key && f.Where is not null).ToList();
        Assert.Equal(["key E minor from bar 3", "key D major from bar 5", "key C major from bar 7"], found.Select(f => f.Claim));
        Assert.Equal([Verdict.Supported, Verdict.Contradicted, Verdict.Supported], found.Select(f => f.Verdict));
        Assert.Equal([(3, 5.0), (5, 9.0), (7, 13.0)], found.Select(f => (f.Where!.Bar!.Value, f.Where.Time.Value)));
        Assert.Equal("C major", found[1].Suggestion);
    }
}
