using System.Globalization;
using System.Text.Json;
using Harkbook.Audio.Recordings;
using Harkbook.Listening.Interchange;

namespace Harkbook.Listening;

/// <summary>
/// Keeps Hearings in a folder by recording hash and listener version, so that a recording is listened to once.
/// The folder may be deleted at any time; a file that can't be read is as good as absent.
/// </summary>
public sealed class HearingStore(string folder)
{
    /// <summary>In the user's cache folder.</summary>
    public static HearingStore Default { get; } = new(CacheFolder.Path);

    public Hearing? Find(Recording recording)
    {
        try
        {
            using var stream = File.OpenRead(PathOf(recording));
            var found = HearingJson.Read(stream);
            return found with { Recording = recording };
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or JsonException or FormatException or ArgumentException)
        {
            return null;
        }
    }

    /// <summary>Keeps a Hearing; where the folder can't be written to, nothing is kept and nothing else is harmed.</summary>
    public void Keep(Hearing hearing)
    {
        try
        {
            Directory.CreateDirectory(folder);
            AtomicFile.Write(PathOf(hearing.Recording), stream => HearingJson.Write(hearing, stream));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
        }
    }

    private string PathOf(Recording recording) =>
        Path.Combine(folder, string.Create(CultureInfo.InvariantCulture, $"{recording.ContentHash[..32]}-{Listener.Version}.json"));
}
