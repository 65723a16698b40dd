using System.Text;
using Harkbook.Audio.Recordings;

namespace Harkbook.App;

internal static class Output
{
    /// <summary>Writes a text file whole or not at all.</summary>
    public static Task WriteTextAsync(string path, string text, CancellationToken ct) =>
        AtomicFile.WriteAsync(path, async (stream, token) => await stream.WriteAsync(Encoding.UTF8.GetBytes(text), token), ct);
}
