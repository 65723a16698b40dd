using Harkbook.Music.Songs;

namespace Harkbook.Music.Tests.Songs;

/// <summary>A bar whose cells don't go into its beats is a slip of the pen, and said; which do is arithmetic by hand.</summary>
public class UnevenCellsTests
{
    /// <summary>Eight cells are the eighths of 4/4; in a bar with one dot less, the third stroke falls on 2/7 of the bar, beat 2 + 1/7.</summary>
    [Theory]
    [InlineData("4/4", "chords | C | C |\nstrum throughout | d . du . u d u |", 7)]
    [InlineData("4/4", "chords | C | C |\nstrum throughout | d . d u d u |", 6)]
    [InlineData("4/4", "sung | Down to the har- bour | x . . x |", 5)]
    [InlineData("3/4", "chords | C . . G | C . . |", 4)]
    [InlineData("6/8", "chords | C | C |\nstrum throughout | d . d u d |", 5)]
    [InlineData("4/4", "chords | C | C |\npick throughout\nE4 | 0 1 0 1 0 |", 5)]
    public void ASlipOfADotIsSaid(string meter, string line, int cells)
    {
        var slip = Assert.Single(Uneven(meter, line));
        Assert.Equal(Severity.Warning, slip.Severity);
        Assert.StartsWith($"{cells} cells don't go into a bar of {meter}", slip.Message);
    }

    [Theory]
    [InlineData("4/4", "chords | C | C |\nstrum throughout | d . du . d u d u |")]
    [InlineData("4/4", "chords | C | C |\nstrum throughout | d du .u du |")]
    [InlineData("4/4", "sung | Down to the | x x |")]
    [InlineData("4/4", "chords | C | C |\nstrum throughout | d . . d . . d . . d . . |")]
    [InlineData("3/4", "chords | C . G | C . . . . G |")]
    [InlineData("6/8", "chords | C | C |\nstrum throughout | d . u d . u |")]
    [InlineData("6/8", "chords | C | C |\nstrum throughout | d u d u |")]
    [InlineData("12/8", "chords | C | C |\nstrum throughout | d u d u |")]
    [InlineData("4/4", "chords | C . . . . | G |")]
    public void WhatGoesInIsNot(string meter, string line) => Assert.Empty(Uneven(meter, line));

    [Fact]
    public void BarsAlikeAreSaidOnceWithTheirNumber()
    {
        var slip = Assert.Single(Uneven("4/4", "sung | a b c d e | a b c d e | a b c d | a b c d e |"));
        Assert.Contains("and so do 2 more of sung", slip.Message, StringComparison.Ordinal);
        Assert.Contains("write it in 20 cells", slip.Suggestion!, StringComparison.Ordinal);
    }

    [Fact]
    public void APatternCountsByTheMeterItIsWrittenFor() =>
        Assert.Empty(SongText.Parse("title T\nmeter 3/4\npattern Roll in 4/4 | d du .u du |\nsection A\nchords | C | G |\nstrum Roll\n", "t").Diagnostics
            .Where(d => d.Code == DiagnosticCode.UnevenCells));

    private static Diagnostic[] Uneven(string meter, string line) =>
        [.. SongText.Parse($"title T\nmeter {meter}\nsection A\n{line}\nsection B\nchords | C |\n", "t")
            .Diagnostics.Where(d => d.Code == DiagnosticCode.UnevenCells)];
}
