using Harkbook.Music.Songs;

namespace Harkbook.Music.Tests.Analysis.Harmony;

/// <summary>Short songs, one chord a cell.</summary>
internal static class Tune
{
    public static Song In(string key, params string[] sections)
    {
        var text = $"title T\nkey {key}\n"
            + string.Concat(sections.Select((s, i) => s.StartsWith("section", StringComparison.Ordinal) ? s + "\n" : $"section S{i + 1}\nchords {s}\n"));
        var document = SongText.Parse(text, "t.hark");
        return document.Song ?? throw new ArgumentException(string.Join('\n', document.Diagnostics), nameof(sections));
    }
}
