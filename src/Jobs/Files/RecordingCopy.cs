using Harkbook.Audio.Recordings;
using Harkbook.Audio.Recordings.Reading;

namespace Harkbook.Jobs.Files;

/// <summary>Puts a recording into its song's folder, so that the folder can be handed on whole.</summary>
public static class RecordingCopy
{
    /// <summary>Copies the file, byte for byte, unless it lies in the folder already.</summary>
    /// <returns>Its path as the song file writes it.</returns>
    public static async Task<string> BringAsync(Recording recording, string folder, CancellationToken ct)
    {
        var inside = Path.GetRelativePath(Path.GetFullPath(folder), Path.GetFullPath(recording.Path));
        if (!Path.IsPathRooted(inside) && inside.Split(Path.DirectorySeparatorChar)[0] != "..")
            return inside.Replace('\\', '/');
        var name = Path.GetFileName(recording.Path);
        var copy = Path.Combine(folder, name);
        if (!File.Exists(copy))
            await AtomicFile.WriteAsync(copy, (stream, token) => CopyAsync(recording.Path, stream, token), ct);
        else if ((await RecordingReader.InspectAsync(copy, ct)).ContentHash != recording.ContentHash)
            throw new UserException($"{copy} is another recording of the same name and was not touched. Choose another folder with --into, or rename one "
                + "of them.");
        return name;
    }

    private static async Task CopyAsync(string path, Stream into, CancellationToken ct)
    {
        await using var file = File.OpenRead(path);
        await file.CopyToAsync(into, ct);
    }
}
