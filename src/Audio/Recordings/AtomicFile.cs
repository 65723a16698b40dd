namespace Harkbook.Audio.Recordings;

/// <summary>Writes a whole file or none: into a temporary file beside the goal, flushed, then renamed over it.</summary>
public static class AtomicFile
{
    /// <param name="path">The goal; its folder must exist. A file already there is replaced only at the end.</param>
    /// <param name="write">Fills the stream, which can seek. What it throws deletes the temporary file and passes through.</param>
    public static void Write(string path, Action<Stream> write) =>
        Run(path, temporary =>
        {
            using var stream = new FileStream(temporary, FileMode.CreateNew, FileAccess.ReadWrite);
            write(stream);
            stream.Flush(flushToDisk: true);
        });

    /// <summary>The same for writing that waits.</summary>
    public static Task WriteAsync(string path, Func<Stream, CancellationToken, Task> write, CancellationToken cancellation) =>
        WriteByPathAsync(path, async (temporary, ct) =>
        {
            await using var stream = new FileStream(temporary, FileMode.CreateNew, FileAccess.ReadWrite);
            await write(stream, ct);
            stream.Flush(flushToDisk: true);
        }, cancellation);

    /// <summary>The same for another program that makes the file itself: it is given the temporary file's path, which keeps the goal's extension.</summary>
    public static async Task WriteByPathAsync(string path, Func<string, CancellationToken, Task> write, CancellationToken cancellation)
    {
        var (goal, temporary) = Prepare(path);
        try
        {
            await write(temporary, cancellation);
            cancellation.ThrowIfCancellationRequested();
            File.Move(temporary, goal, overwrite: true);
        }
        catch (Exception e) when (e is UnauthorizedAccessException or IOException and not (UnwritableFileException or FfmpegException) || IsTooLarge(e))
        {
            throw Unwritable(path, e);
        }
        finally
        {
            File.Delete(temporary);
        }
    }

    private static void Run(string path, Action<string> write) =>
        WriteByPathAsync(path, (temporary, _) =>
        {
            write(temporary);
            return Task.CompletedTask;
        }, CancellationToken.None).GetAwaiter().GetResult();

    private static (string Goal, string Temporary) Prepare(string path)
    {
        var goal = Path.GetFullPath(path);
        var folder = Path.GetDirectoryName(goal);
        if (Directory.Exists(goal))
            throw new UnwritableFileException($"{path}: this is a folder. Give the name of a file in it.");
        if (!Directory.Exists(folder))
            throw new UnwritableFileException($"{path}: the folder {folder} doesn't exist. Make it first, or choose another place.");
        var name = $".{Path.GetFileNameWithoutExtension(goal)}.{Guid.NewGuid():N}.part{Path.GetExtension(goal)}";
        return (goal, Path.Combine(folder, name));
    }

    private static UnwritableFileException Unwritable(string path, Exception cause) => new(cause switch
    {
        UnauthorizedAccessException => $"{path}: no permission to write here. Choose a folder of your own, or change the folder's permissions.",
        _ when IsDiskFull(cause) => $"{path}: the disk is full. Free some space and try again; nothing half-written was left.",
        _ when IsTooLarge(cause) => $"{path}: the file grows larger than the disk or your quota allows. Choose another disk; nothing half-written was left.",
        _ => $"{path}: can't be written ({cause.Message.TrimEnd('.')}). Choose another place.",
    }, cause);

    /// <summary>Whether an error of the system says that the disk is full: ENOSPC on Unix (28), ERROR_DISK_FULL (112) and ERROR_HANDLE_DISK_FULL (39) on
    /// Windows.</summary>
    public static bool IsDiskFull(Exception e) => (e.HResult & 0xFFFF) is 28 or 112 or 39;

    /// <summary>
    /// Whether the system says that a file has outgrown what the file system or a quota allows: EFBIG, which .NET tells as an argument
    /// out of range, or ERROR_FILE_TOO_LARGE (223) on Windows.
    /// </summary>
    public static bool IsTooLarge(Exception e) =>
        (e is ArgumentOutOfRangeException && e.TargetSite?.DeclaringType?.Namespace is "System.IO" or "System.IO.Strategies") || (e.HResult & 0xFFFF) == 223;
}
