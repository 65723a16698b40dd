using Harkbook.Audio.Recordings;
using Harkbook.Jobs.Files;

namespace Harkbook.App.Files;

/// <summary>Opens songs for a command: what is wrong or worth knowing goes to the error stream, a line each.</summary>
internal static class SongOpening
{
    public static SongFolder Open(string path, bool withHints = true) => SongFolder.Open(path, Console.Error.WriteLine, withHints);

    public static IReadOnlyList<SongFolder> OpenAll(IEnumerable<string> paths) => SongShelf.Open(paths, Console.Error.WriteLine);

    /// <summary>Says so when the recording isn't the very file that the song was made from, or ends before the song's bars do.</summary>
    public static void WarnOfAnother(this SongFolder opened, Recording recording)
    {
        foreach (var warning in opened.WarningsOf(recording))
            Console.Error.WriteLine(warning);
    }
}
