using System.Collections.Immutable;
using Harkbook.Listening.Evaluation;
using Harkbook.Listening.Interchange;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Tests.Evaluation;

/// <summary>
/// Counted by hand, with mir_eval's tolerances for transcriptions: 50 ms and a quarter tone. At 60 beats a minute a beat is a second, a sixteenth a quarter
/// of one, a 32nd an eighth.
/// </summary>
public class TuneScoresTests
{
    private const string Truth = "title T\ntempo 60\ntune voice\nsection A\nchords | C |\ntune | C4 D4 E4 F4 |\n";

    /// <summary>One of four notes a semitone off, one an eighth of a second late: two of four either way, so F is a half.</summary>
    [Theory]
    [InlineData("C4 D4 E4 F4", 1, 1)]
    [InlineData("C4 D#4 .,E4,.,.,.,.,.,. F4", 0.5, 0.5)]
    [InlineData("C4 D4 _ _", 2 / 3.0, 1)]
    public void TimeAndPitchMustAgree(string notes, double f, double precision)
    {
        var draft = SongText.Parse(Truth.Replace("C4 D4 E4 F4", notes, StringComparison.Ordinal), "d").Song!;
        var scores = TuneScores.Score(draft, SongText.Parse(Truth, "t").Song!);
        Assert.Equal(f, scores.Single(s => s.Measure == "tune note onset F").Value, 9);
        Assert.Equal(precision, scores.Single(s => s.Measure == "tune notes written that are right").Value, 9);
    }

    /// <summary>A quarter tone is 50 cents: A4 = 450 Hz lies 38.9 cents above 440, A4 = 455 Hz 58.0.</summary>
    [Theory]
    [InlineData("450", 1)]
    [InlineData("455", 0)]
    public void PitchesAreCountedFromTheirOwnReference(string a4, double f)
    {
        var draft = SongText.Parse(Truth.Replace("tempo", $"pitch {a4}\ntempo", StringComparison.Ordinal), "d").Song!;
        Assert.Equal(f, TuneScores.Score(draft, SongText.Parse(Truth, "t").Song!)[0].Value, 9);
    }

    [Fact]
    public void WhatTheAnnotationDoesNotTellIsNotScored()
    {
        var draft = SongText.Parse(Truth, "d").Song!;
        Assert.Empty(TuneScores.Score(draft, new Annotation()));
        ImmutableArray<AnnotatedLineNote> blown = [new(new(0, 1, 60), null)];
        Assert.Empty(TuneScores.Score(draft, new Annotation { Lines = [new(LineKind.Harmonica, [], blown)] }));
        Assert.Equal(0.4, TuneScores.Score(draft, new Annotation { Lines = [new(LineKind.Voice, [], blown)] })[0].Value, 9);
    }
}
