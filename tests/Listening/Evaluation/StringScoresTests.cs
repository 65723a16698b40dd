using Harkbook.Listening.Evaluation;
using Harkbook.Listening.Interchange;
using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Listening.Tests.Evaluation;

// Counted by hand on a few notes; the matching rule is NoteScores' (mir_eval).
public class StringScoresTests
{
    private static readonly HeardTuning Standard = new(Tuning.Standard, Capo.None, "standard");

    private static readonly ScoredNote[] Truth = [new(0, 1, 48, 1), new(1, 2, 52, 2), new(2, 3, 55, 3), new(3, 4, 60, 4)];

    [Fact]
    public void OnlyFoundNotesCount()
    {
        ScoredNote[] heard = [new(0.02, 1, 48, 1), new(1.01, 2, 52, 1), new(2.2, 3, 55, 3)];

        Assert.Equal((1, 2), StringScores.Count(Truth, Standard, heard, Standard));
    }

    [Fact]
    public void NotesThatNoStringTookAreWrongAndNotesOfUnknownStringsDoNotCount()
    {
        ScoredNote[] truth = [Truth[0], Truth[1] with { StringIndex = null }];

        Assert.Equal((0, 1), StringScores.Count(truth, Standard, [new(0, 1, 48), new(1, 2, 52, 2)], Standard));
    }

    [Fact]
    public void TheRightStringInAnotherTuningIsAnotherFret()
    {
        var dropD = new HeardTuning(Tuning.Parse("D2 A2 D3 G3 B3 E4"), Capo.None, "drop D");
        ScoredNote[] truth = [new(0, 1, 43, 0), new(1, 2, 48, 1)];

        Assert.Equal((1, 2), StringScores.Count(truth, Standard, truth, dropD));
    }

    [Fact]
    public void ACapoCountsAsAnotherFret()
    {
        var halfStepDown = new HeardTuning(Tuning.Parse("Eb2 Ab2 Db3 Gb3 Bb3 Eb4"), Capo.At(1), "half step down");

        Assert.Equal((0, 4), StringScores.Count(Truth, Standard, Truth, halfStepDown));
    }
}
