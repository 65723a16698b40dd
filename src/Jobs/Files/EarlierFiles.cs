using System.Globalization;
using Harkbook.Audio.Recordings;
using Harkbook.Music.Songs;

namespace Harkbook.Jobs.Files;

/// <summary>
/// A song file's earlier texts, kept beside it as "night-ferry.earlier-1.txt", the highest number the latest. Every command that writes
/// over a song keeps it here, so that one undo takes back whichever came last.
/// </summary>
public sealed class EarlierFiles(string songPath, TimeProvider clock)
{
    private readonly string folder = Path.GetDirectoryName(Path.GetFullPath(songPath))!;
    private readonly string before = Path.GetFileNameWithoutExtension(songPath) + ".earlier-";

    /// <summary>The latest kept text; null where none is.</summary>
    public (string Path, EarlierText Text)? Last()
    {
        var number = Numbers().DefaultIfEmpty(0).Max();
        return number > 0 && EarlierText.Read(File.ReadAllBytes(Place(number))) is { } text ? (Place(number), text) : null;
    }

    /// <summary>Keeps the song as it is, then puts the new text in its place.</summary>
    /// <param name="what">The command's words, such as "taps --write".</param>
    /// <returns>Where the earlier text lies.</returns>
    public async Task<string> ReplaceAsync(byte[] now, byte[] made, string what, CancellationToken ct)
    {
        var place = Place(Numbers().DefaultIfEmpty(0).Max() + 1);
        await WriteAsync(place, EarlierText.Keep(now, made, what, DateOnly.FromDateTime(clock.GetLocalNow().DateTime)).Write(), ct);
        await WriteAsync(songPath, made, ct);
        return place;
    }

    /// <summary>Puts a kept text back. What stood in its place was made by a command and can be made again.</summary>
    public async Task GiveBackAsync((string Path, EarlierText Text) kept, CancellationToken ct)
    {
        await WriteAsync(songPath, kept.Text.Bytes.ToArray(), ct);
        File.Delete(kept.Path);
    }

    private IEnumerable<int> Numbers() => Directory.GetFiles(folder, before + "*.txt")
        .Select(f => int.TryParse(Path.GetFileNameWithoutExtension(f)[before.Length..], NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            ? number : 0);

    private string Place(int number) => Path.Combine(folder, string.Create(CultureInfo.InvariantCulture, $"{before}{number}.txt"));

    private static Task WriteAsync(string path, byte[] bytes, CancellationToken ct) =>
        AtomicFile.WriteAsync(path, async (stream, token) => await stream.WriteAsync(bytes, token), ct);
}
