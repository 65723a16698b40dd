using Harkbook.Music.Songs;
using Xunit;

namespace Harkbook.Music.Tests.Songs;

/// <summary>Expected by docs/song-file.md, "Sections like others": what is the same isn't written again, what differs is.</summary>
public sealed class LikeTests
{
    private const string Verse = """
        title Two Lamps
        section Verse 1
        chords | C . . . | G . . . | Am . . . | F . . . |
        strum throughout | d du d du |
        sung | one two three four | a . b . | c d . . | _ |

        """;

    [Theory]
    [InlineData("chords | C . . . | G . . . | A . . . | F . . . |\nstrum throughout | d du d du |\nsung | one two three four | a . b . | c d . . | _ |",
        "like Verse 1\nchords from 3 | A . . . |")]
    [InlineData("chords | C | G | Am | F |\nstrum throughout | d du d du |\nsung | five . six . | e . f . | g . . . | _ |",
        "like Verse 1\nsung | five . six . | e . f . | g . . . | _ . . . |")]
    [InlineData("chords | C | G | Am | F |\nstrum | d . d . | d du d du | d du d du | d du d du |\nsung | one two three four | a . b . | c d . . | _ |",
        "like Verse 1\nstrum from 1 | d . d . |")]
    [InlineData("chords | Dm | Bb | Gm | A |\nstrum | d . . . | d . . . | d . . . | d . . . |\nsung | u u u u | u . u . | u . u u | _ |", "")]
    public void OnlyWhatDiffersIsWritten(string second, string expected)
    {
        var song = SongText.Parse(Verse + "section Verse 2\n" + second + "\n", "t").Song!;
        var written = SongText.Write(song);
        var rest = Squeezed(written).Split("Verse 2").Last().Trim();
        Assert.Equal(expected, rest.StartsWith("like", StringComparison.Ordinal) ? rest : "");
        Assert.Equal(song, SongText.Parse(written, "t").Song);
    }

    /// <summary>One space for many.</summary>
    private static string Squeezed(string text) =>
        string.Join('\n', text.Split('\n').Select(l => string.Join(' ', l.Split(' ', StringSplitOptions.RemoveEmptyEntries))));
}
