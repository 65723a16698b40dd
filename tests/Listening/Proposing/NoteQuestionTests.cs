using Harkbook.Listening.Proposing;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Proposing;

/// <summary>By arithmetic: at 120 beats a minute a bar of four lasts two seconds, a beat half a second.</summary>
public class NoteQuestionTests
{
    private const string Text = """
        title T
        recording t.wav
        tuning E2 A2 D3 G3 B3 E4
        meter 4/4
        tempo 120
        key C major

        section A
        anchors 1 = 0:00.000
        chords | C | C |
        pick
          E4 | 0 . . . | . |
          B3 | . | . |
          G3 | . | . |
          D3 | . | . |
          A2 | . | . |
          E2 | . | . |
        """;

    [Fact]
    public void ASureNoteThatIsNotWrittenIsToldWithItsPlace()
    {
        var lines = Ask(Note(64, 0), Note(60, 1.3));
        Assert.Contains("  C4 in bar 1, beat 3.60 (0:01.300)", lines);
        Assert.DoesNotContain(lines, l => l.Contains("E4", StringComparison.Ordinal)); // the written one
    }

    [Theory]
    [InlineData(60, 1.3, 0.8)] // not sure
    [InlineData(60, 2.5, 0.95)] // in a bar where nothing is picked
    [InlineData(60, 1.98, 0.95)] // at the start of that bar, a little early
    public void NothingElseIsAsked(int midi, double onset, double sure) => Assert.Empty(Ask(Note(64, 0), Note(midi, onset, sure)));

    [Fact]
    public void WhatAVoiceSingsIsNotAskedFor()
    {
        var voice = new HeardLine
        {
            Kind = new(new Candidate<LineKind>(LineKind.Voice, 0.9)), Contour = PitchContour.Silent,
            Notes = [new(60, default, Seconds.FromSeconds(1.2), Seconds.FromSeconds(1.5), 0.9)],
        };
        var hearing = HandMade.Hearing([], []) with { Notes = [Note(60, 1.3), Note(62, 1.3)], Lines = new(0, [voice]) };
        var lines = NoteQuestion.Of(hearing, SongText.Parse(Text, "t.hark").Song!);
        Assert.Contains(lines, l => l.Contains("D4", StringComparison.Ordinal));
        Assert.DoesNotContain(lines, l => l.Contains("C4", StringComparison.Ordinal));
    }

    [Fact]
    public void OnlyTheSurestFewAreTold()
    {
        var lines = Ask([.. Enumerable.Range(0, 7).Select(k => Note(50 + k, 0.3 + 0.2 * k, 0.9 + 0.01 * k))]);
        Assert.Contains("  and 2 more", lines);
        Assert.DoesNotContain(lines, l => l.Contains("D3", StringComparison.Ordinal)); // the least sure
    }

    private static HeardNote Note(int midi, double onset, double sure = 0.95) =>
        new(midi, Seconds.FromSeconds(onset), Seconds.FromSeconds(onset + 0.2), sure, 0.5);

    private static IEnumerable<string> Ask(params HeardNote[] notes) =>
        NoteQuestion.Of(HandMade.Hearing([], []) with { Notes = [.. notes] }, SongText.Parse(Text, "t.hark").Song!);
}
