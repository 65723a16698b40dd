using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Tunings;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators.Tunings;

// Open strings of the tunings are common practice, as in data/tunings.tsv.
public class TuningEstimatorTests
{
    private static readonly int[][] OpenChords = [[40, 47, 52, 56, 59, 64], [45, 52, 57, 61, 64], [43, 47, 50, 55, 59, 67], [48, 52, 55, 60, 64],
        [50, 57, 62, 66]];

    [Fact]
    public void OpenPositionChordsAreStandardTuning()
    {
        var best = Estimate("E major", OpenChords);

        Assert.Equal("standard", best.Best.Name);
        Assert.Equal(0, best.Best.Capo.Fret);
    }

    [Fact]
    public void TheSameChordsTwoSemitonesUpAreACapoAtTheSecondFret()
    {
        var found = Estimate("F# major", [.. OpenChords.Select(c => c.Select(m => m + 2).ToArray())]);

        Assert.Contains(found.Candidates.Take(2), c => c.Value.Name == "standard" && c.Value.Capo.Fret == 2);
    }

    [Fact]
    public void OpenDRingsInOpenD()
    {
        int[][] chords = [[38, 45, 50, 54, 57, 62], [38, 50, 55, 59, 62], [45, 50, 57, 62, 66], [38, 45, 50, 54, 57, 62], [43, 50, 55, 59, 62]];

        var found = Estimate("D major", chords);

        Assert.Equal("open D", found.Best.Name);
        Assert.Contains("open", found.Candidates[0].Evidence);
    }

    [Fact]
    public void ALowDRulesStandardTuningOut()
    {
        var found = Estimate("D major", [[38, 45, 50, 57, 62, 66], [43, 47, 50, 55, 59, 67], [45, 52, 57, 61, 64], [38, 45, 50, 57, 62, 66]]);

        Assert.Equal(38, found.Best.Tuning.Strings[0].Midi + found.Best.Capo.Fret);
        Assert.DoesNotContain(found.Candidates.Take(3), c => c.Value.Name == "standard");
    }

    [Fact]
    public void FewNotesLeaveItOpen()
    {
        var found = Estimate("G major", [[55, 59, 62]]);

        Assert.InRange(found.Confidence, 0, 0.7);
        Assert.True(found.Candidates.Length > 3);
    }

    [Fact]
    public void NoNotesGiveTheUsualTuningAndSayWhy()
    {
        var found = new TuningEstimator().Estimate([], Key.Parse("C major"), TestContext.Current.CancellationToken);

        Assert.Equal("standard", found.Best.Name);
        Assert.InRange(found.Confidence, 0, 0.6);
        Assert.Contains("No notes", found.Candidates[0].Evidence);
    }

    private static Distribution<HeardTuning> Estimate(string key, int[][] chords)
    {
        var notes = chords.SelectMany(_ => Enumerable.Range(0, 3), (chord, repeat) => (chord, repeat))
            .SelectMany((c, i) => c.chord.Select((m, s) =>
                new HeardNote(m, Seconds.FromSeconds(i + 0.008 * s), Seconds.FromSeconds(i + 0.9), 0.9, 0.7)))
            .ToImmutableArray();
        return new TuningEstimator().Estimate(notes, Key.Parse(key), TestContext.Current.CancellationToken);
    }
}
