namespace Harkbook.Workbench.Books;

/// <summary>Judges paths: whatever links lie on the way are followed, and what then lies outside the folder isn't there.</summary>
public sealed class InsideFolder
{
    private const int MostLinks = 40;

    private static readonly StringComparison Comparison = OperatingSystem.IsWindows() ? StringComparison.OrdinalIgnoreCase : StringComparison.Ordinal;

    private readonly string root;

    /// <param name="folder">It is there.</param>
    public InsideFolder(string folder) => root = Real(folder) ?? throw new DirectoryNotFoundException(folder);

    /// <summary>The folder itself, without links.</summary>
    public string Root => root;

    /// <summary>Where a path truly lies, for opening; null where that is outside the folder, or links go round in a circle.</summary>
    /// <param name="path">From the folder, or whole.</param>
    public string? Judge(string path) =>
        !path.Contains('\0') && Real(Path.Combine(root, path)) is { } real && (real.StartsWith(root + Path.DirectorySeparatorChar, Comparison) || real == root)
            ? real : null;

    /// <summary>The path without links and dots; what isn't there yet stands as it is.</summary>
    private static string? Real(string path)
    {
        var (waiting, real, links) = (new Stack<string>(Parts(Path.GetFullPath(path)).Reverse()), Path.GetPathRoot(Path.GetFullPath(path))!, 0);
        while (waiting.TryPop(out var part))
        {
            if (part == "..")
            {
                real = Path.GetDirectoryName(real) ?? real;
                continue;
            }
            var step = Path.Combine(real, part);
            if (new FileInfo(step).LinkTarget is not { } target)
            {
                real = step;
                continue;
            }
            if (++links > MostLinks)
                return null;
            if (Path.IsPathRooted(target))
                real = Path.GetPathRoot(target)!;
            foreach (var inner in Parts(target).Reverse())
                waiting.Push(inner);
        }
        return real;
    }

    private static IEnumerable<string> Parts(string path) =>
        path[(Path.GetPathRoot(path)?.Length ?? 0)..].Split(['/', Path.DirectorySeparatorChar], StringSplitOptions.RemoveEmptyEntries).Where(p => p != ".");
}
