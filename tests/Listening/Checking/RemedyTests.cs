using Harkbook.Listening.Checking;
using Harkbook.Listening.Evidence;
using Harkbook.Listening.Tests.Estimators.Beats;
using Harkbook.Listening.Tests.Proposing;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Tests.Checking;

/// <summary>What the check suggests goes into the song file, and nothing else changes there. Beats every half second from 1 s on.</summary>
public class RemedyTests
{
    private const string Text = """
        title T ; as told
        pitch  A4 = 430 Hz  ~heard 50% ; the old fork
        tempo 120
        key C major
        shape C x32013 ; with the high G
        section A
        anchors 1 = 0:01   2 = 0:03.2  ~heard 90% ; by ear
        chords | C . . . | Eb . C . |  ~heard 40%
        pick
          G3 | . . 2 . | . |
        """;

    private static readonly SongDocument Document = SongText.Parse(Text, "t.hark");

    private static readonly CheckResult Result = new Checker(HandMade.Hearing(HandMade.Beats(HandMade.Every(0.5, 40), 1, 2, 3, 4),
        [HandMade.Chord("C", 1, 3), HandMade.Chord("Am", 3, 4), HandMade.Chord("C", 4, 5)]) with
    {
        Evidence = new()
        {
            Notes = HandMade.Evidence(60, (1, 3, [48, 52, 55, 60, 64]), (3, 4.1, [45, 52, 57, 60, 64]), (4.1, 5.3, [48, 52, 55, 60, 64])),
            Pulse = PulseSound.None with { Curves = Activations.Of([.. HandMade.Every(0.5, 40)], k => k % 4 == 0) },
        },
    }).Check(Document.Song!);

    [Fact]
    public void ABarsTimeIsTaken() => AssertTaken("bar 2", ClaimKind.Bar, "2 = 0:03.2  ~heard 90%", "2 = 0:03.000  ~heard 90%  ~bar 2 decided");

    [Fact]
    public void TheReferencePitchIsTaken() => AssertTaken(null, ClaimKind.Pitch, "A4 = 430 Hz  ~heard 50%", "A4 = 441.2 Hz");

    [Fact]
    public void AChordIsTaken() => AssertTaken("bar 2", ClaimKind.Chord, "| Eb . C . |  ~heard 40%", "| Am . C . |  ~heard 40%  ~bar 2 beat 1 decided");

    [Fact]
    public void NumbersAndBarsChoose()
    {
        var offered = RemedyChoice.Offered(Result);
        Assert.Equal([offered[0], offered[1]], RemedyChoice.Read("1-2", Result, out _)!.Taken);
        Assert.Equal([offered[0], offered[^1]], RemedyChoice.Read($"{offered.Length},1", Result, out _)!.Taken);
        Assert.Equal(offered.Where(f => f.Where?.Bar == 2), RemedyChoice.Read("bar 2", Result, out _)!.Taken);
        Assert.Equal(offered.Where((f, i) => i == 0 || f.Where?.Bar == 2), RemedyChoice.Read("1 bars 2-2", Result, out _)!.Taken);
    }

    [Theory]
    [InlineData("99", "99")]
    [InlineData("0", "0")]
    [InlineData("1 bar 7", "bar 7")]
    [InlineData("bar", "bar")]
    [InlineData("one", "one")]
    public void WhatNamesNothingIsSaid(string text, string wrong)
    {
        Assert.Null(RemedyChoice.Read(text, Result, out var part));
        Assert.Equal(wrong, part);
    }

    /// <summary>String 1 is the thin one, so G3 is string 3 of six; its second fret is A3.</summary>
    [Fact]
    public void APickedNoteIsFoundByStringAndFret() => Assert.Equal("string 3 (G3) fret 2, A3", Result.Findings.Single(f => f.Kind == ClaimKind.Note).Claim);

    private static void AssertTaken(string? bar, ClaimKind kind, string before, string after)
    {
        var finding = RemedyChoice.Offered(Result).Single(f => f.Kind == kind && (bar is null || f.Where!.Bar == int.Parse(bar[4..])));
        var edited = finding.Remedy!.Onto(Document);
        Assert.Equal(Text.Replace(before, after), edited.Text);
        Assert.NotNull(edited.Song);
    }
}
