using Harkbook.Music.Songs;

namespace Harkbook.Music.Tests.Songs;

/// <summary>A hammer-on, pull-off or slide has a note to go on from (common practice); one from nowhere is said.</summary>
public class NothingBeforeTests
{
    [Theory]
    [InlineData("pick\nE4 | . h1 |\nB3 | 1 . |", "h1", "0h1")]
    [InlineData("pick\nE4 | p0 . |", "p0", "2p0")]
    [InlineData("pick\nE4 | 3 _ s7 . |", "s7", "5s7")]
    [InlineData("strum from 2 | d |\npick\nE4 | h3 . | . . |", "h3", "1h3")]
    public void ANoteFromNowhereIsSaidWithWhatToWrite(string lines, string note, string written)
    {
        var found = Assert.Single(Of(lines));
        Assert.Equal(Severity.Warning, found.Severity);
        Assert.StartsWith($"{note} is ", found.Message);
        Assert.EndsWith($"{written}.", found.Suggestion);
    }

    [Theory]
    [InlineData("pick\nE4 | 0 h1 |")]
    [InlineData("pick\nE4 | 0h1 p0 |")]
    [InlineData("pick\nE4 | 0 . | . h1 |")]
    [InlineData("strum | d |\npick\nE4 | . h1 |")]
    [InlineData("pick\nE4 | t12 p0 |")]
    [InlineData("pick\nE4 | /4 . |")]
    [InlineData("pick ~heard 60%\nE4 | . h1 |")]
    public void OneThatGoesOnIsNot(string lines) => Assert.Empty(Of(lines));

    private static Diagnostic[] Of(string lines) =>
        [.. SongText.Parse($"title T\nsection A\n{lines}\n", "t").Diagnostics.Where(d => d.Code == DiagnosticCode.NothingBefore)];
}
