using Harkbook.Listening.Evaluation;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Tests.Evaluation;

/// <summary>Counts by hand.</summary>
public class DraftScoresTests
{
    private const string Head = "title T\ntuning standard\ncapo none\nmeter 4/4\ntempo 120\nkey C major\n";

    private const string Truth = Head + """
        section Verse 1
        chords | C . . . | G . . . |
        strum | d . du . | d . du . |
        section Break
        chords | C . . . |
        pick
          B3 | 1 . h3 . |
          A2 | 3 . . . |
        """;

    [Fact]
    public void ADraftThatIsTheTruthIsAllRight()
    {
        var scores = Score(Truth);
        Assert.All(scores.Where(s => s.Key != "sections written for one true one"), s => Assert.Equal(1, s.Value));
        Assert.Contains("techniques F", scores.Keys);
    }

    // Of three picked notes one is on another string and one an eighth late, and the hammered one is written as picked; of six strokes one is missing
    // and one of the five goes the other way.
    [Fact]
    public void WhatDiffersIsCounted()
    {
        var scores = Score(Truth.Replace("| d . du . | d . du . |", "| d . du . | u . d. . |").Replace("1 . h3 .", ".,1 . 3 .")
            .Replace("  A2 | 3 . . . |", "  E2 | 8 . . . |"));
        Assert.Equal(1 / 3.0, scores["picked notes, string, fret and place"], 6);
        Assert.Equal(1 / 3.0, scores["picked notes written that are right"], 6);
        Assert.Equal(0, scores["techniques F"]);
        Assert.Equal(5 / 6.0, scores["strokes at their place"], 6);
        Assert.Equal(1, scores["strokes written that are there"], 6);
        Assert.Equal(4 / 5.0, scores["directions of found strokes"], 6);
    }

    // Six bars in pairs under labels A A B against A B B, two seconds a bar, frames of .1 s: pairs in common are those inside each of the three bar pairs,
    // 3 C(40, 2) = 2340; either form has C(80, 2) + C(40, 2) = 3940.
    [Fact]
    public void LabelsAreScoredByPairsOfFrames()
    {
        FormSpan[] truth = [new(0, 8, "A"), new(8, 12, "B")], draft = [new(0, 4, "A"), new(4, 12, "B")];
        Assert.Equal(2340 / 3940.0, FormScores.Pairwise([.. draft], [.. truth]).F, 6);
    }

    private static Dictionary<string, double> Score(string draft) =>
        DraftScores.Score(SongText.Parse(draft, "d").Song!, SongText.Parse(Truth, "t").Song!).ToDictionary(m => m.Measure, m => m.Value);
}
