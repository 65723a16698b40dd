using Harkbook.Listening.Checking;
using Harkbook.Listening.Evidence;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Checking;

/// <summary>
/// What is said of a harmonica's holes, of where words are sung and of a tune's notes. On a C harmonica draw 4 is D5 (MIDI 74)
/// and blow 4 C5 (72), as every maker's chart has it. Bar 1 starts at 1 s, a beat is half a second.
/// </summary>
public class LineClaimTests
{
    private static readonly KindShares Reed = new(0.9f, 0.02f, 0, 0), Voice = new(0.02f, 0.9f, 0, 0);

    [Fact]
    public void TheOtherBreathIsTheRival()
    {
        var hole = Assert.Single(Check("harp C", "harp | . -4 . . |", ClaimKind.Hole, Hearing(Reed, (74, 1.5))));
        Assert.True(hole.LogOdds > 0);
        var wrong = Assert.Single(Check("harp C", "harp | . +4 . . |", ClaimKind.Hole, Hearing(Reed, (74, 1.5))));
        Assert.Equal((true, "-4", "D5 sounds then, -4 on this harp"), (wrong.LogOdds < 0, wrong.Rival!.Reading, wrong.Heard));
    }

    /// <summary>MIDI 57 is A3, 60 C4; what isn't written as it sounds has what sounds for its rival.</summary>
    [Fact]
    public void ANoteOfTheTuneIsWeighedAgainstWhatElseSounds()
    {
        var hearing = Hearing(Voice, (57, 1.5), (60, 2.5));
        Assert.All(Check("tune voice", "tune | _ A3 . C4 |", ClaimKind.TuneNote, hearing), n => Assert.True(n.LogOdds > 0));
        var wrong = Check("tune voice", "tune | _ A3 . D4 |", ClaimKind.TuneNote, hearing);
        Assert.Equal([true, false], wrong.Select(n => n.LogOdds > 0));
        Assert.Equal(("C4", "C4 sounds then"), (wrong[1].Rival!.Reading, wrong[1].Heard));
        Assert.False(Check("tune voice", "tune | _ _ A3 C4 |", ClaimKind.TuneNote, hearing)[0].LogOdds > 0);
    }

    [Fact]
    public void ATuneWhosePlayerWasNotMadeOutIsNotAsked()
    {
        var hearing = Hearing(Voice, (57, 1.5), (60, 2.5));
        var song = SongText.Parse("title T\ntempo 120\ntune fiddle\nsection A\nanchors 1 = 0:01\ntune | _ A3 . C4 |\n", "t.hark").Song!;
        var result = new Checker(hearing).Check(song);
        Assert.DoesNotContain(result.Findings, f => f.Kind == ClaimKind.TuneNote);
        Assert.Contains(result.NotAsked, n => n.Contains("tune", StringComparison.Ordinal));
    }

    [Fact]
    public void AWordMovedByAnEighthIsFound()
    {
        var hearing = Hearing(Voice, (57, 1.5), (60, 2.5));
        Assert.All(Check("capo none", "sung | . lo . la |", ClaimKind.Syllable, hearing), s => Assert.True(s.LogOdds > 0));
        var moved = Check("capo none", "sung | . _,lo . la |", ClaimKind.Syllable, hearing);
        Assert.Equal([false, true], moved.Select(s => s.LogOdds > 0));
        Assert.Equal("the voice starts an eighth earlier", moved[0].Heard);
    }

    private static List<Finding> Check(string fact, string part, ClaimKind kind, Hearing hearing) => [.. new Checker(hearing)
        .Check(SongText.Parse($"title T\ntempo 120\n{fact}\nsection A\nanchors 1 = 0:01\n{part}\n", "t.hark").Song!).Findings.Where(f => f.Kind == kind)];

    /// <summary>Each note starts clearly and is held for 0.4 s; all of it is made out as a voice.</summary>
    private static Hearing Hearing(KindShares kind, params (int Midi, double Onset)[] notes)
    {
        var plucked = PluckedEvidence.Of(notes);
        var cells = LineCells.Of(Enumerable.Range(0, plucked.Evidence.Notes.Frames).Select(f => notes.Where(n => f >= n.Onset * 100 && f < n.Onset * 100 + 40)
            .Select(n => new LineCell(n.Midi - 36, kind, f < n.Onset * 100 + 2 ? 0.9f : 0.02f, 0, -30))));
        return plucked with
        {
            Evidence = plucked.Evidence with { Lines = cells },
            Lines = new(0, [new HeardLine
            {
                Kind = new(new Candidate<LineKind>(LineKind.Voice, 0.9)),
                Contour = PitchContour.Silent,
                Notes = [.. notes.Select(n => new HeardLineNote(n.Midi, default, Seconds.FromSeconds(n.Onset), Seconds.FromSeconds(n.Onset + 0.4), 0.9))],
            }]),
        };
    }
}
