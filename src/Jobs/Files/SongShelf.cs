
namespace Harkbook.Jobs.Files;

/// <summary>Several songs on disk: those named, and all that lie in a folder and the folders under it.</summary>
public static class SongShelf
{
    /// <summary>
    /// In the order given, a folder's songs by path. A file is read once, and one of the same name in a folder under another's is taken
    /// for that one's draft and left out.
    /// </summary>
    /// <param name="say">Who is told of diagnostics.</param>
    public static IReadOnlyList<SongFolder> Open(IEnumerable<string> paths, Action<string> say) =>
        [.. WithoutDrafts(paths.SelectMany(Required)).Select(f => SongFolder.Open(f, say, withHints: false))];

    /// <summary>The song files of a folder and those under it, drafts of others left out; none where there are none.</summary>
    /// <param name="deepest">How many folders deep they may lie.</param>
    public static IReadOnlyList<string> FilesOf(string folder, int deepest) => [.. WithoutDrafts(Found(folder, deepest))];

    private static IEnumerable<string> WithoutDrafts(IEnumerable<string> paths)
    {
        var files = paths.DistinctBy(Path.GetFullPath).ToArray();
        return files.Where(f => !files.Any(other => IsDraftOf(f, other)));
    }

    private static bool IsDraftOf(string file, string other) =>
        Path.GetFileName(file) == Path.GetFileName(other)
        && Path.GetFullPath(file).StartsWith(Path.GetDirectoryName(Path.GetFullPath(other)) + Path.DirectorySeparatorChar, StringComparison.Ordinal)
        && Path.GetFullPath(file) != Path.GetFullPath(other);

    private static IEnumerable<string> Required(string path)
    {
        if (!Directory.Exists(path))
            return [path];
        var found = Found(path);
        return found.Length > 0 ? found
            : throw new UserException($"{path}: neither the folder nor those under it hold a {SongFolder.Ending} file. 'harkbook start RECORDING' makes one.");
    }

    private static string[] Found(string folder, int deepest = int.MaxValue) =>
        [.. Directory.EnumerateFiles(folder, "*" + SongFolder.Ending,
            new EnumerationOptions { RecurseSubdirectories = true, IgnoreInaccessible = true, MaxRecursionDepth = deepest }).Order(StringComparer.Ordinal)];
}
