using Harkbook.Audio.Recordings;
using Harkbook.Audio.Recordings.Formats;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Workbench.Ear;

/// <summary>A recording as a browser plays it: the file itself, or, of a kind that browsers don't know, a WAV file of it in the cache folder.</summary>
public static class RecordSound
{
    private static readonly Dictionary<string, string> Types = new(StringComparer.OrdinalIgnoreCase)
    {
        [".wav"] = "audio/wav", [".mp3"] = "audio/mpeg", [".ogg"] = "audio/ogg", [".oga"] = "audio/ogg", [".opus"] = "audio/ogg",
        [".flac"] = "audio/flac", [".m4a"] = "audio/mp4", [".mp4"] = "video/mp4", [".webm"] = "video/webm",
    };

    public static async Task<(string Path, string Type)> OfAsync(string path, CancellationToken ct)
    {
        if (Types.TryGetValue(Path.GetExtension(path), out var type))
            return (path, type);
        var recording = await RecordingReader.InspectAsync(path, ct);
        var folder = Directory.CreateDirectory(Path.Combine(CacheFolder.Path, "played"));
        var copy = Path.Combine(folder.FullName, recording.ContentHash[..32] + ".wav");
        if (!File.Exists(copy))
            WaveFile.Write(copy, await RecordingReader.ReadAsync(recording, SampleRate.FromHertz(44_100), mono: false, null, ct));
        return (copy, Types[".wav"]);
    }
}
