
namespace Harkbook.Jobs.Files;

/// <summary>
/// A folder that results go to: made where it isn't there, and tried before the long work. What was made goes away again
/// if no file came to stand in it.
/// </summary>
public sealed class OutputPlace : IDisposable
{
    private readonly string folder;
    private readonly string? highestMade;

    private OutputPlace(string folder, string option)
    {
        this.folder = folder;
        RequireNoFileInTheWay(folder, option);
        highestMade = Missing(folder).LastOrDefault();
        try
        {
            Directory.CreateDirectory(folder);
            TryOut();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Dispose();
            throw new UserException($"{folder}: nothing can be written there ({Reason(e)}). Choose another place with {option}.");
        }
    }

    /// <param name="option">The option that names the place, for messages.</param>
    public static OutputPlace ForFolder(string folder, string option) => new(Path.GetFullPath(folder), option);

    /// <summary>The place of one file, which may be there already but can't be a folder.</summary>
    public static OutputPlace ForFile(string path, string option)
    {
        var goal = Path.GetFullPath(path);
        return Directory.Exists(goal)
            ? throw new UserException($"{path}: this is a folder. Name a file with {option}.")
            : new(Path.GetDirectoryName(goal)!, option);
    }

    public void Dispose()
    {
        if (highestMade is not null && Directory.Exists(highestMade) && !Directory.EnumerateFiles(highestMade, "*", SearchOption.AllDirectories).Any())
            Directory.Delete(highestMade, recursive: true);
    }

    private static void RequireNoFileInTheWay(string folder, string option)
    {
        if (Upwards(folder).FirstOrDefault(File.Exists) is { } file)
            throw new UserException($"{file}: this is a file, and a folder is needed in its place. Choose another place with {option}.");
    }

    /// <summary>The folder and those above it that aren't there, the highest last.</summary>
    private static IEnumerable<string> Missing(string folder) => Upwards(folder).TakeWhile(f => !Directory.Exists(f));

    private static IEnumerable<string> Upwards(string folder)
    {
        for (var at = folder; at is not null; at = Path.GetDirectoryName(at))
            yield return at;
    }

    private void TryOut()
    {
        var probe = Path.Combine(folder, $".harkbook-{Environment.ProcessId}");
        using var file = new FileStream(probe, FileMode.CreateNew, FileAccess.Write, FileShare.None, 1, FileOptions.DeleteOnClose);
    }

    private static string Reason(Exception e) => e switch
    {
        UnauthorizedAccessException => "no permission; you may change the folder's rights",
        FileNotFoundException or DirectoryNotFoundException => "the system keeps no files there",
        _ => e.Message.TrimEnd('.'),
    };
}
