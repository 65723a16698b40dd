using Harkbook.App.Messages;

namespace Harkbook.App.Files;

/// <summary>Several songs on disk: those named, and all that lie in a folder and the folders under it.</summary>
internal static class SongShelf
{
    /// <summary>
    /// In the order given, a folder's songs by path. A file is read once, and one of the same name in a folder under another's is taken
    /// for that one's draft and left out.
    /// </summary>
    public static IReadOnlyList<SongFolder> Open(IEnumerable<string> paths)
    {
        var files = paths.SelectMany(Files).DistinctBy(Path.GetFullPath).ToArray();
        return [.. files.Where(f => !files.Any(other => IsDraftOf(f, other))).Select(f => SongFolder.Open(f, withHints: false))];
    }

    private static bool IsDraftOf(string file, string other) =>
        Path.GetFileName(file) == Path.GetFileName(other)
        && Path.GetFullPath(file).StartsWith(Path.GetDirectoryName(Path.GetFullPath(other)) + Path.DirectorySeparatorChar, StringComparison.Ordinal)
        && Path.GetFullPath(file) != Path.GetFullPath(other);

    private static IEnumerable<string> Files(string path)
    {
        if (!Directory.Exists(path))
            return [path];
        var found = Directory.EnumerateFiles(path, "*" + SongFolder.Ending, new EnumerationOptions { RecurseSubdirectories = true, IgnoreInaccessible = true })
            .Order(StringComparer.Ordinal).ToArray();
        return found.Length > 0 ? found
            : throw new UserException($"{path}: neither the folder nor those under it hold a {SongFolder.Ending} file. 'harkbook start RECORDING' makes one.");
    }
}
