using Harkbook.Music.Songs;

namespace Harkbook.Workbench.Desk;

/// <summary>Facts as a song file writes them.</summary>
public static class FactWords
{
    public static string Capo(Song song) => song.Capo.Value is var capo && capo.Fret == 0 ? "none"
        : capo.IsPartial ? $"{capo.Fret} on {string.Join(' ', capo.OnlyStrings.Select(s => song.Tuning.Value.Strings[s]))}" : $"{capo.Fret}";
}
