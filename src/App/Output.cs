using System.Text;
using Harkbook.Audio.Recordings;

namespace Harkbook.App;

/// <summary>Where results go.</summary>
internal static class Output
{
    /// <summary>Makes the file's folder and sees that it can be written to, so that long work doesn't end in a refusal.</summary>
    public static void RequireWritable(string path)
    {
        var folder = Path.GetDirectoryName(Path.GetFullPath(path))!;
        try
        {
            Directory.CreateDirectory(folder);
            var probe = Path.Combine(folder, $".harkbook-{Environment.ProcessId}");
            using var file = new FileStream(probe, FileMode.CreateNew, FileAccess.Write, FileShare.None, 1, FileOptions.DeleteOnClose);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new UserException($"{folder}: can't be written to ({e.Message.TrimEnd('.')}). Choose another folder with the command's own option, or change the folder's rights.");
        }
    }

    public static Task WriteTextAsync(string path, string text, CancellationToken ct) =>
        AtomicFile.WriteAsync(path, async (stream, token) => await stream.WriteAsync(Encoding.UTF8.GetBytes(text), token), ct);
}
