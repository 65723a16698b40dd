using Harkbook.Demo;
using Harkbook.Music.Songs;

namespace Harkbook.App.Tests.Demo;

/// <summary>The made-up songs of the songbook with how they are played.</summary>
internal static class DemoSongs
{
    public static IEnumerable<(string Name, Song Song, DemoPerformance Performance)> All()
    {
        foreach (var folder in Directory.GetDirectories(Path.Combine(Root(), "docs", "examples", "songbook")).Order())
        {
            var name = Path.GetFileName(folder);
            var document = SongText.Parse(File.ReadAllText(Path.Combine(folder, name + ".hark")), name);
            Assert.Empty(document.Diagnostics);
            yield return (name, document.Song!, DemoPerformance.Parse(File.ReadAllText(Path.Combine(folder, "performance.json"))));
        }
    }

    private static string Root()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "Harkbook.slnx")))
            folder = Path.GetDirectoryName(folder) ?? throw new DirectoryNotFoundException("The tests run inside the repository.");
        return folder;
    }
}
