using Harkbook.Listening.Evaluation;
using Harkbook.Listening.Interchange;

namespace Harkbook.Listening.Tests.Evaluation;

/// <summary>Expected values: mir_eval 0.7's own fixtures, and small pairs run through mir_eval 0.7.</summary>
public class NoteScoresTests
{
    public static TheoryData<string> Numbers => Fixture.Numbers(10);

    private static readonly ScoredNote[] FourNotes =
        [At(0, 1, 220), At(1, 2, 246.9417), At(2, 3, 261.6256), At(3, 4, 293.6648)];

    [Theory]
    [MemberData(nameof(Numbers))]
    public void ScoresEqualThePublishedOnes(string number)
    {
        var (reference, estimated) = (Notes($"ref{number}.txt"), Notes($"est{number}.txt"));
        Same("", NoteScores.OnsetPitchAndOffset(reference, estimated));
        Same("_no_offset", NoteScores.OnsetAndPitch(reference, estimated));
        Assert.Equal(Fixture.Expected("transcription", number, "Onset_F-measure"), NoteScores.OnsetOnly(reference, estimated).F, 1e-10);

        void Same(string kind, FScore score)
        {
            Assert.Equal(Fixture.Expected("transcription", number, "Precision" + kind), score.Precision, 1e-10);
            Assert.Equal(Fixture.Expected("transcription", number, "Recall" + kind), score.Recall, 1e-10);
            Assert.Equal(Fixture.Expected("transcription", number, "F-measure" + kind), score.F, 1e-10);
        }
    }

    [Fact]
    public void ALateNoteAndASharpOneStillCountButAShortOneFailsByItsOffset()
    {
        ScoredNote[] estimated = [At(0.03, 1, 220), At(1, 2, 246.9417 * Math.Pow(2, 40 / 1200.0)), At(2, 2.75, 261.6256), At(3, 4, 293.6648)];
        Assert.Equal(0.75, NoteScores.OnsetPitchAndOffset(FourNotes, estimated).F, 1e-9);
        Assert.Equal(1, NoteScores.OnsetAndPitch(FourNotes, estimated).F, 1e-9);
    }

    [Fact]
    public void WrongPitchesCountOnlyAsOnsets()
    {
        ScoredNote[] estimated = [At(0, 1, 220 * Math.Pow(2, 60 / 1200.0)), At(1, 2, 2 * 246.9417), At(2, 3, 261.6256)];
        var score = NoteScores.OnsetAndPitch(FourNotes, estimated);
        Assert.Equal((0.33333, 0.25, 0.28571), (Math.Round(score.Precision, 5), score.Recall, Math.Round(score.F, 5)));
        Assert.Equal(0.85714, NoteScores.OnsetOnly(FourNotes, estimated).F, 1e-5);
    }

    [Fact]
    public void FramesCountPitchesSoundingTogether()
    {
        // By hand: 100 frames of one pitch against 50 of them and 50 of another.
        ScoredNote[] reference = [new(0, 1, 60)];
        ScoredNote[] estimated = [new(0, 0.5, 60), new(0.5, 1, 61)];
        Assert.Equal(0.5, NoteScores.Frames(reference, estimated).F, 1e-9);
    }

    private static ScoredNote At(double onset, double end, double hertz) => new(onset, end, 69 + 12 * Math.Log2(hertz / 440));

    private static ScoredNote[] Notes(string file) =>
        [.. Fixture.Rows("transcription", file).Select(r => At(Fixture.Number(r[0]), Fixture.Number(r[1]), Fixture.Number(r[2])))];
}
