namespace Harkbook.App;

/// <summary>Several songs on disk: those named, and all that lie in a folder and the folders under it.</summary>
internal static class SongShelf
{
    /// <summary>In the order given, a folder's songs by path. Lesson copies don't count twice: a file is read once.</summary>
    public static IReadOnlyList<SongFolder> Open(IEnumerable<string> paths)
    {
        var files = paths.SelectMany(Files).DistinctBy(Path.GetFullPath).ToArray();
        return [.. files.Select(f => SongFolder.Open(f, withHints: false))];
    }

    private static IEnumerable<string> Files(string path)
    {
        if (!Directory.Exists(path))
            return [path];
        var found = Directory.EnumerateFiles(path, "*" + SongFolder.Ending, new EnumerationOptions { RecurseSubdirectories = true, IgnoreInaccessible = true })
            .Order(StringComparer.Ordinal).ToArray();
        return found.Length > 0 ? found : throw new UserException($"{path}: neither the folder nor those under it hold a {SongFolder.Ending} file. 'harkbook start RECORDING' makes one.");
    }
}
