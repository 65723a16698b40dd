using Harkbook.Listening.Checking;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Tests.Checking;

/// <summary>
/// What is said of picked notes. The D3 string's fret 2 is E3 (52), fret 14 E4 (64), by the fretboard; bar 1 starts at 1 s, a beat is half a second, so the
/// second beat is at 1.5 s and an eighth lasts 0.25 s.
/// </summary>
public class PickedNotesTests
{
    private static List<Finding> Check(string part, ClaimKind kind, params (int Midi, double Onset)[] heard) =>
        [.. new Checker(PluckedEvidence.Of(heard))
        .Check(SongText.Parse($"title T\ntempo 120\nkey F major\nsection A\nanchors 1 = 0:01\n{part}\n", "t.hark").Song!).Findings.Where(f => f.Kind == kind)];

    private static Finding Note(string picked, params (int Midi, double Onset)[] heard) => Check($"pick\n{picked}", ClaimKind.Note, heard)[0];

    [Fact]
    public void ANoteThatStartsInItsPlaceIsRight()
    {
        var note = Note("  D3 | . 14 . . |", (64, 1.5));
        Assert.True(note.LogOdds > 0);
        Assert.Equal("string 4 (D3) fret 14, E4", note.Claim);
    }

    [Theory]
    [InlineData(63, "13", "Eb4 starts then")]
    [InlineData(62, "12", "D4 starts then")]
    [InlineData(52, "2", "E3 starts then")]
    [InlineData(58, "8", "Bb3 starts then")]
    public void AnotherPitchInItsPlaceIsTheRival(int heard, string fret, string told)
    {
        var note = Note("  D3 | . 14 . . |", (heard, 1.52));
        Assert.True(note.LogOdds < 0);
        Assert.Equal((fret, told), (note.Rival!.Reading, note.Heard));
    }

    [Theory]
    [InlineData(1.75, "it starts an eighth later")]
    [InlineData(1.25, "it starts an eighth earlier")]
    public void ANoteMovedByAnEighthIsFound(double heard, string told)
    {
        var note = Note("  D3 | . 14 . . |", (64, heard));
        Assert.True(note.LogOdds < 0);
        Assert.Equal(told, note.Heard);
    }

    [Fact]
    public void WhatAnotherNoteExplainsIsNoRival()
    {
        var notes = Check("pick\n  D3 | . 14 . . |\n  E2 | . 0 . . |", ClaimKind.Note, (40, 1.5));
        Assert.Equal(["string 6 (E2) fret 0, E2", "string 4 (D3) fret 14, E4"], notes.Select(n => n.Claim));
        Assert.Equal([true, false], notes.Select(n => n.LogOdds > 0));
        Assert.Equal(".", notes[1].Rival!.Reading);
    }

    /// <summary>G3 (55) is heard at 2 s and isn't written; the third beat is there.</summary>
    [Fact]
    public void ANoteLeftOutIsFoundWhereNotesArePicked()
    {
        var missing = Assert.Single(Check("pick\n  D3 | . 14 . . |", ClaimKind.Silence, (64, 1.5), (55, 2.0)));
        Assert.Equal((1, 3.0), (missing.Where!.Bar!.Value, missing.Where.Beat!.Value));
        Assert.Equal(("G3", "G3 starts here and isn't written"), (missing.Rival!.Reading, missing.Heard));
        Assert.Empty(Check("pick\n  D3 | . 14 . . |\n  G3 | . . 0 . |", ClaimKind.Silence, (64, 1.5), (55, 2.0)));
    }

    [Fact]
    public void WhatTheRecordingWasNotAskedIsSaid()
    {
        var song = SongText.Parse("title T\ntempo 120\nsection A\nanchors 1 = 0:01\nstrum | d |\nsung | lo |\npick\n  D3 | . 14 . . |\n", "t.hark").Song!;
        string[] notAsked = ["on which of two strings a note is picked, where the hand reaches both", "where words are sung, since no voice was made out"];
        Assert.Equal(notAsked, new Checker(PluckedEvidence.Of((64, 1.5))).Check(song).NotAsked);
    }
}
