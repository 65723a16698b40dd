using System.Collections.Immutable;
using Harkbook.Music.Songs;

namespace Harkbook.App.Choices;

/// <summary>The bars that are practised: of the song, or of a drill made from it.</summary>
/// <param name="What">"bars 5 to 8", "D to A7".</param>
/// <param name="FolderEnd">What its folder is called behind "exercise-": "bars-5-8", "D-to-A7".</param>
internal sealed record Practised(Song Song, int FirstBar, int LastBar, string What, string FolderEnd)
{
    public ImmutableArray<Bar> Bars => [.. Song.Bars.Skip(FirstBar - 1).Take(LastBar - FirstBar + 1)];
}
