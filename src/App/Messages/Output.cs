using System.Text;
using Harkbook.Audio.Recordings;

namespace Harkbook.App.Messages;

internal static class Output
{
    /// <summary>A path as it is shortest to read: from here where it lies below, else whole.</summary>
    public static string Shown(string path)
    {
        var fromHere = Path.GetRelativePath(Environment.CurrentDirectory, path);
        return fromHere.StartsWith("..", StringComparison.Ordinal) ? Path.GetFullPath(path) : fromHere;
    }

    /// <summary>Where a song's earlier text lies, and how it comes back.</summary>
    public static string WayBack(string kept, string songPath) =>
        $"As it was before: {Shown(kept)}; 'harkbook rebar {Shown(songPath)} --undo' gives it back.";

    /// <summary>Writes a text file whole or not at all.</summary>
    public static Task WriteTextAsync(string path, string text, CancellationToken ct) =>
        AtomicFile.WriteAsync(path, async (stream, token) => await stream.WriteAsync(Encoding.UTF8.GetBytes(text), token), ct);
}
