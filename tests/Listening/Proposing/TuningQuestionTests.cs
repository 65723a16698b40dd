using Harkbook.Listening.Proposing;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Proposing;

public class TuningQuestionTests
{
    // A low D is no note of standard tuning, whose lowest string is E2 (any handbook): by 5 s, in bar 3 of bars of 2 s from 1 s on, it decides.
    [Fact]
    public void ANoteThatOnlyOneTuningHasIsAskedFor()
    {
        var lines = Ask(0.4, 0.3, new HeardNote(38, Seconds.FromSeconds(5), Seconds.FromSeconds(6), 0.9, 0.8, new(0, 0, 0.9)));
        Assert.Contains(lines, l => l.Contains("D2 A2 D3 G3 B3 E4 (40%)", StringComparison.Ordinal));
        Assert.Contains(lines, l => l.Contains("the lowest note of bar 3 (0:05.000) a D2? Then it isn't E2 A2 D3 G3 B3 E4", StringComparison.Ordinal));
    }

    [Fact]
    public void ATuningThatIsLikelierThanAllOthersIsNotAsked() =>
        Assert.Empty(Ask(0.6, 0.3, new HeardNote(38, Seconds.FromSeconds(5), Seconds.FromSeconds(6), 0.9, 0.8)));

    private static IEnumerable<string> Ask(double first, double second, HeardNote note)
    {
        var hearing = HandMade.Hearing(HandMade.Beats(HandMade.Every(0.5, 16), 1, 2, 3, 4), [HandMade.Chord("D", 1, 9)]) with
        {
            Tuning = new(new Candidate<HeardTuning>(new(Tuning.Parse("D2 A2 D3 G3 B3 E4"), Capo.None, null), first),
                new Candidate<HeardTuning>(new(Tuning.Standard, Capo.None, null), second)),
            Notes = [note],
        };
        return TuningQuestion.Of(hearing, SongProposer.Propose(hearing, "T", "t.wav"));
    }
}
