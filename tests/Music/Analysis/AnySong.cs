using Harkbook.Music.Songs;

namespace Harkbook.Music.Tests.Analysis;

/// <summary>Songs of invented places from a few lines.</summary>
internal static class AnySong
{
    /// <param name="lines">Facts, shapes and sections; the title is added.</param>
    public static Song Of(string lines)
    {
        var document = SongText.Parse("title Made Up\n" + lines, "made-up.hark");
        return document.Song ?? throw new FormatException(string.Join('\n', document.Diagnostics));
    }
}
