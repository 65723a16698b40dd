using Harkbook.Listening.Checking;
using Harkbook.Listening.Tests.Proposing;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Checking;

/// <summary>What a song leaves unwritten, by hand: at 120 a minute a beat lasts half a second, and bar 2 starts at 2 s.</summary>
public class UnwrittenNoteTests
{
    private static readonly Song Song = SongText.Parse("""
        title T
        tempo 120
        shape D xx0232
        section A
        chords | D | D | D |
        pick from 2
          E4   | 2 . . . |
          D3   | 0 . . . |
        """, "t").Song!;

    /// <summary>D3 rings from the bar's start on, claimed; E4 at fret 2 is F#4, claimed; a G4 on beat 2 and an A2 near beat 3 and a half aren't.</summary>
    [Fact]
    public void WhatIsClaimedIsNotToldAgain()
    {
        var heard = Heard((50, 2.02, .9, null), (66, 1.95, .8, null), (67, 2.52, .6, new(5, 3, .7)), (45, 3.22, .7, new(0, 5, .9)), (70, 4.0, .9, null));

        var unwritten = UnwrittenNote.In(Song, heard, 2, 2);

        Assert.Equal([(45, Beats.Fraction(5, 2), new FretPlace(0, 5)), (67, Beats.Whole(1), new FretPlace(5, 3))],
            unwritten.Select(u => (u.Note.Midi, u.At, u.Place!.Value)));
    }

    /// <summary>A held D shape claims A3 (G3 string, fret 2) though nothing strikes it; A2 lies on its own open string where the ear says none.</summary>
    [Fact]
    public void AShapeThatIsHeldClaimsItsNotes() => Assert.Equal([new FretPlace(1, 0)],
        UnwrittenNote.In(Song, Heard((57, 4.5, .9, null), (45, 4.5, .5, null)), 3, 4).Select(u => u.Place!.Value));

    private static Hearing Heard(params (int Midi, double Onset, double Sure, HeardPlace? Place)[] notes) =>
        HandMade.Hearing(HandMade.Beats(HandMade.Every(0.5, 12), 1, 2, 3, 4), []) with
        {
            Notes = [.. notes.Select(n => new HeardNote(n.Midi, Seconds.FromSeconds(n.Onset), Seconds.FromSeconds(n.Onset + 0.4), n.Sure, .8,
                n.Place))],
        };
}
