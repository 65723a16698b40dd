using System.Collections.Immutable;
using Harkbook.Music.Songs;

namespace Harkbook.Publishing.Engraving.Tabs;

/// <summary>
/// The sung lines that a sheet leaves out: sections where every syllable is a mere cross that the program heard. A page full of them
/// teaches nobody; the song file keeps them.
/// </summary>
internal static class UndecidedVoice
{
    /// <summary>The names of those sections.</summary>
    public static ImmutableArray<string> Of(Song song) => [.. song.Sections.Where(IsUndecided).Select(s => s.Name).Distinct()];

    /// <summary>The song without those lines.</summary>
    public static Song LeftOut(Song song) =>
        song with { Sections = [.. song.Sections.Select(s => IsUndecided(s) ? s with { Bars = [.. s.Bars.Select(b => b with { Sung = [] })] } : s)] };

    private static bool IsUndecided(Section section)
    {
        var sung = section.Bars.SelectMany(b => b.Sung).ToArray();
        return sung.Length > 0 && sung.All(s => s is { Value: "x", Standing.Kind: StandingKind.Heard });
    }
}
