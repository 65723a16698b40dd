using System.Security.Cryptography;
using Harkbook.Audio.Recordings;

namespace Harkbook.Publishing.Lessons.Pieces;

/// <summary>
/// Keeps finished pieces of lessons (stretches of video, coded sound) in a folder, by the hash of all that they are made from, so that
/// each is made once. The folder may be deleted at any time; a piece that is damaged is as good as absent.
/// </summary>
/// <param name="room">Bytes that the folder may fill; beyond them the pieces unused the longest go.</param>
public sealed class PieceStore(string folder, TimeProvider clock, long room = 2L << 30)
{
    private const string Ending = ".piece";

    /// <summary>In the user's cache folder.</summary>
    public static PieceStore Default { get; } = new(Path.Combine(CacheFolder.Path, "lessons"), TimeProvider.System);

    /// <summary>Copies a kept piece to a file, if it is here and whole.</summary>
    public bool TryTake(string key, string into)
    {
        if (Read(PathOf(key)) is not { } content)
            return false;
        File.WriteAllBytes(into, content.Span);
        return true;
    }

    /// <summary>Keeps a file as a piece; where the folder can't be written to, nothing is kept and nothing else is harmed.</summary>
    public void Keep(string key, string path)
    {
        var content = File.ReadAllBytes(path);
        try
        {
            Directory.CreateDirectory(folder);
            AtomicFile.Write(PathOf(key), stream =>
            {
                stream.Write(SHA256.HashData(content));
                stream.Write(content);
            });
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
        }
    }

    /// <summary>Lets the pieces go that were unused the longest, until the rest has room.</summary>
    public void Thin()
    {
        try
        {
            var size = 0L;
            foreach (var file in new DirectoryInfo(folder).GetFiles("*" + Ending).OrderByDescending(f => f.LastWriteTimeUtc))
            {
                size += file.Length;
                if (size > room)
                    file.Delete();
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
        }
    }

    /// <summary>The piece behind its hash; null where there is none, or what stands there isn't what was kept.</summary>
    private ReadOnlyMemory<byte>? Read(string path)
    {
        try
        {
            var bytes = File.ReadAllBytes(path);
            var hash = Math.Min(SHA256.HashSizeInBytes, bytes.Length);
            if (!SHA256.HashData(bytes.AsSpan(hash)).AsSpan().SequenceEqual(bytes.AsSpan(0, hash)))
                return null;
            File.SetLastWriteTimeUtc(path, clock.GetUtcNow().UtcDateTime);
            return bytes.AsMemory(hash);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    private string PathOf(string key) => Path.Combine(folder, key + Ending);
}
