using Harkbook.Listening.Evaluation;
using Harkbook.Listening.Interchange;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Evaluation;

/// <summary>Which heard line is held against which true one; expected values counted by hand.</summary>
public class LineScoresTests
{
    private static readonly AnnotatedLine Sung = new(LineKind.Voice, [], [new(new(1, 1.5, 60), null), new(new(2, 2.5, 62), null)]);

    private static readonly AnnotatedLine Blown = new(LineKind.Harmonica, [],
        [new(new(1, 1.5, 79), HarpNote.Parse("+6")), new(new(2, 2.5, 81), HarpNote.Parse("-6"))], PitchName.Parse("C"));

    [Fact]
    public void EachLineIsScoredAgainstItsOwnKind()
    {
        var scores = Score([Heard(LineKind.Harmonica, (1, 79), (2, 81)), Heard(LineKind.Voice, (1, 60), (2, 71))], Sung, Blown);
        Assert.Equal(1, scores["second instruments, just these"]);
        // The harmonica's notes are both right, one of two of the voice's: F of 1 and of 1/2.
        Assert.Equal(0.75, scores["line note onset F"], 1e-9);
        Assert.Equal(1, scores["harp hole and breath"]);
        Assert.Equal(1, scores["harp key, first choice"]);
    }

    [Fact]
    public void APitchCountsHoweverItsLineWasNamed()
    {
        var scores = Score([Heard(LineKind.Bowed, (1, 60), (2, 62))], Sung);
        Assert.Equal((0, 1), (scores["second instruments, just these"], scores["line note onset F"]));
    }

    [Fact]
    public void ALineThatIsNotHeardScoresNothing()
    {
        var scores = Score([Heard(LineKind.Voice, (1, 60), (2, 62))], Sung, Blown);
        Assert.Equal((0, 0.5), (scores["second instruments, just these"], scores["line note onset F"]));
        Assert.Equal((0, 0), (scores["harp hole and breath"], scores["harp key, first choice"]));
    }

    [Fact]
    public void AGuitarAloneIsToldByAnEmptyList()
    {
        Assert.Equal(1, Score([])["second instruments, just these"]);
        Assert.Equal(0, Score([Heard(LineKind.Voice, (1, 60))])["second instruments, just these"]);
        Assert.Empty(LineScores.Of(HeardLines.NotLookedFor, Hertz.A440, new Annotation()));
    }

    private static Dictionary<string, double> Score(HeardLine[] heard, params AnnotatedLine[] truth) =>
        LineScores.Of(new(0.1, [.. heard]), Hertz.A440, new Annotation { Lines = [.. truth] }).ToDictionary(m => m.Measure, m => m.Value);

    private static HeardLine Heard(LineKind kind, params (double Onset, int Midi)[] notes) => new()
    {
        Kind = new(new Candidate<LineKind>(kind, 0.9)),
        Contour = PitchContour.Silent,
        Harp = kind == LineKind.Harmonica ? new(new Candidate<HeardHarp>(new(PitchName.Parse("C"), 1), 0.9)) : null,
        Notes = [.. notes.Select(n => new HeardLineNote(n.Midi, default, Seconds.FromSeconds(n.Onset), Seconds.FromSeconds(n.Onset + 0.5), 0.9,
            Holes(kind, n.Midi)))],
    };

    private static Distribution<HarpNote>? Holes(LineKind kind, int midi) =>
        kind == LineKind.Harmonica ? new(new Candidate<HarpNote>(HarpNote.Parse(midi == 79 ? "+6" : "-6"), 1)) : null;
}
