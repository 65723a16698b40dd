using Harkbook.Listening.Checking;

namespace Harkbook.Listening.Tests.Checking;

/// <summary>
/// One error planted in a right song at a time is found where it stands; the right song itself is nowhere contradicted. What is right is what was played.
/// </summary>
public class PlantedErrorTests(RenderedSong song) : IClassFixture<RenderedSong>
{
    [Fact]
    public void TheRightSongIsNowhereContradicted() =>
        Assert.Empty(song.Check().Findings.Where(f => f.Verdict == Verdict.Contradicted).Select(f => $"{f.Kind} {f.Where?.Bar} {f.Claim}: {f.Heard}"));

    [Theory]
    [InlineData("a fret two off", "| . . . 0 . . . 3 |", "| . . . 2 . . . 3 |", ClaimKind.Note, 2)]
    [InlineData("a note missing", "| . . . . . . . 2 |", "| . . . . . . . . |", ClaimKind.Silence, 4)]
    [InlineData("a note too many", "| . 0 . . . 0 . . | . 2", "| . 0 . 2 . 0 . . | . 2", ClaimKind.Note, 2)]
    [InlineData("a chord's kind", "| D | Bm | G | A |", "| D | B | G | A |", ClaimKind.Chord, 6)]
    [InlineData("a chord's root", "| D | Bm | G | A |", "| D | Bm | C | A |", ClaimKind.Chord, 7)]
    [InlineData("a fret of a shape, told at the first bar that uses it", "shape A   x02220", "shape A   x02420", ClaimKind.Shape, 3)]
    [InlineData("a hole", "+4 . -4 . +5 . -5 . |", "+4 . -4 . +6 . -5 . |", ClaimKind.Hole, 1)]
    [InlineData("a breath", "| +6 . . . +5", "| -6 . . . +5", ClaimKind.Hole, 2)]
    [InlineData("a stroke too many", "| d . d u . u d u |", "| d u d u . u d u |", ClaimKind.Stroke, 6)]
    [InlineData("a stroke missing", "| d . d u . u d u |", "| d . d u . u . u |", ClaimKind.StillHand, 6)]
    [InlineData("strokes turned", "| d . d u . u d u |", "| d . u d . d u d |", ClaimKind.Stroke, 6)]
    public void AnErrorIsFoundWhereItStands(string what, string before, string after, ClaimKind kind, int bar)
    {
        var found = song.Check(before, after).Findings.Where(f => f.Kind == kind && f.Where?.Bar == bar).ToList();
        Assert.True(found.Any(f => f.Verdict != Verdict.Supported), $"{what}: {string.Join("; ", found.Select(f => $"{f.Claim} {f.Support:0.00}"))}");
    }

    [Fact]
    public void AWrongKeyIsFound() =>
        Assert.Contains(song.Check("key     D major", "key     A minor").Findings, f => f.Kind == ClaimKind.Key && f.Verdict != Verdict.Supported);

    [Fact]
    public void AHarmonicaInAnotherKeyIsFoundAndTheRightOneTold()
    {
        var harp = song.Check("harp    D", "harp    G").Findings.Single(f => f.Kind == ClaimKind.Harp);
        Assert.Equal((false, "a harp in D"), (harp.Verdict == Verdict.Supported, harp.Rival!.Reading));
    }

    /// <summary>G3 claimed a tone higher.</summary>
    [Fact]
    public void AWrongStringOfTheTuningIsFound() =>
        Assert.Contains(song.CheckInTuning("D2 A2 D3 A3 B3 E4").Findings, f => f.Kind == ClaimKind.TuningString && f.Verdict != Verdict.Supported);

    [Theory]
    [InlineData(3, 1)]
    [InlineData(6, 1)]
    public void ABarLineABeatOffIsFound(int bar, int beats)
    {
        var line = song.CheckWithBarMoved(bar, beats).Findings.Single(f => f.Kind == ClaimKind.Bar && f.Where!.Bar == bar);
        Assert.Equal(Verdict.Contradicted, line.Verdict);
        Assert.True(line.Rival!.LogOdds > 0);
    }
}
