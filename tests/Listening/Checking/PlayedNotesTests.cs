using Harkbook.Listening.Checking;
using Harkbook.Listening.Tests.Proposing;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Checking;

/// <summary>What is said of picked notes. D3 string: fret 2 is E3 (52), fret 14 E4 (64); the bar starts at 0 s, a beat is half a second.</summary>
public class PlayedNotesTests
{
    private static CheckResult Check(string picked, params (int Midi, double Onset)[] heard) =>
        new Checker(HandMade.Hearing(HandMade.Beats(HandMade.Every(0.5, 16, from: 0), 1, 2, 3, 4), []) with
        {
            Notes = [.. heard.Select(n => new HeardNote(n.Midi, Seconds.FromSeconds(n.Onset), Seconds.FromSeconds(n.Onset + 0.4), 0.9, 0.8))],
        }, CheckOptions.Usual).Check(SongText.Parse($"title T\ntempo 120\nkey F major\nsection A\nanchors 1 = 0:00\npick\n{picked}\n", "t.hark").Song!);

    private static List<Finding> Notes(string picked, params (int Midi, double Onset)[] heard) => [.. Check(picked, heard).Findings.Where(f => f.Kind == ClaimKind.Note)];

    [Fact]
    public void AContradictedNoteSaysWhatStartsThenHoweverFarOff()
    {
        var note = Notes("  D3 | . 14 . . |", (58, 0.52), (40, 0.5), (57, 1.5)).Single();
        Assert.Equal((Verdict.Contradicted, "string 4 (D3) fret 14, E4", "Bb3 starts then"), (note.Verdict, note.Claim, note.Heard));
    }

    [Fact]
    public void WhatAnotherClaimSpeaksForIsNotHeardInstead()
    {
        var notes = Notes("  D3 | . 14 . . |\n  E2 | . 0 . . |", (40, 0.5));
        Assert.Equal([(40, Verdict.Supported, null), (64, Verdict.Contradicted, (string?)null)], notes.Select(n => (n.Claim.EndsWith("E2", StringComparison.Ordinal) ? 40 : 64, n.Verdict, n.Heard)));
    }

    [Fact]
    public void WhatTheRecordingWasNotAskedIsSaid()
    {
        Assert.Equal(["on which strings notes are picked, and how"], Check("  D3 | . 14 . . |").NotAsked);
        Assert.Equal(["on which strings notes are picked, and how", "strokes", "sung words and where they start"], Check("  D3 | . 14 . . |\nstrum | d |\nsung | lo |").NotAsked);
    }
}
