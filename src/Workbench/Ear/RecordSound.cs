using System.Collections.Concurrent;
using Harkbook.Audio.Isolation;
using Harkbook.Audio.Recordings;
using Harkbook.Audio.Recordings.Conversion;
using Harkbook.Audio.Recordings.Formats;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Audio.Recordings.Samples;
using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Workbench.Ear;

/// <summary>
/// A recording as a browser plays it: the file itself; or, of a kind that browsers don't know, of a part of it, or at another pitch, a file in the cache
/// folder, with everything at the recording's own times.
/// </summary>
public static class RecordSound
{
    private const int MostFiles = 12;

    /// <summary>What can be asked for; a browser takes places and bands out by itself.</summary>
    private static readonly string[] parts = ["struck", "held"];

    private static readonly Cents furthest = Cents.FromCents(600);

    private static readonly SampleRate rate = SampleRate.FromHertz(44_100);

    private static readonly ConcurrentDictionary<string, SemaphoreSlim> making = [];

    private static readonly Dictionary<string, string> types = new(StringComparer.OrdinalIgnoreCase)
    {
        [".wav"] = "audio/wav", [".mp3"] = "audio/mpeg", [".ogg"] = "audio/ogg", [".oga"] = "audio/ogg", [".opus"] = "audio/ogg",
        [".flac"] = "audio/flac", [".m4a"] = "audio/mp4", [".mp4"] = "video/mp4", [".webm"] = "video/webm",
    };

    /// <summary>Whether such a sounding may be asked for.</summary>
    public static bool Has(string? of, int cents) => (string.IsNullOrEmpty(of) || parts.Contains(of)) && Math.Abs(cents) <= furthest.Value;

    /// <param name="of">"struck" or "held"; null or nothing for the whole.</param>
    /// <param name="cents">By how much it sounds higher.</param>
    public static async Task<(string Path, string Type)> OfAsync(string path, string? of, int cents, CancellationToken ct)
    {
        var known = types.ContainsKey(Path.GetExtension(path));
        if (known && string.IsNullOrEmpty(of) && cents == 0)
            return (path, types[Path.GetExtension(path)]);
        var recording = await RecordingReader.InspectAsync(path, ct);
        var name = recording.ContentHash[..32];
        var whole = known && string.IsNullOrEmpty(of) ? path : await KeptAsync($"{name}{of}.wav", file => WriteAsync(recording, of, file, ct), ct);
        var sounding = cents == 0 ? whole
            : await KeptAsync($"{name}{of}{cents:+0;-0}.flac", file => PitchShift.WriteAsync(whole, Cents.FromCents(cents), file, ct), ct);
        return (sounding, types[Path.GetExtension(sounding)]);
    }

    private static async Task WriteAsync(Recording recording, string? of, string file, CancellationToken ct)
    {
        using var whole = await RecordingReader.StoreAsync(recording, rate, null, ct);
        if (string.IsNullOrEmpty(of))
            WaveFile.Write(file, whole);
        else if (SoundPart.TryParse(of, out var part))
            await Task.Run(() => Part(part!, whole, file, ct), ct);
    }

    private static void Part(SoundPart part, StoredSound whole, string file, CancellationToken ct)
    {
        using var stored = part.Stored(whole, ct);
        WaveFile.Write(file, stored);
    }

    /// <summary>One maker at a time; who asks meanwhile gets the same file.</summary>
    private static async Task<string> KeptAsync(string name, Func<string, Task> make, CancellationToken ct)
    {
        var folder = Directory.CreateDirectory(Path.Combine(CacheFolder.Path, "played"));
        var kept = Path.Combine(folder.FullName, name);
        var one = making.GetOrAdd(kept, _ => new(1, 1));
        await one.WaitAsync(ct);
        try
        {
            if (File.Exists(kept))
                return kept;
            foreach (var old in folder.GetFiles().OrderByDescending(f => f.LastAccessTimeUtc).Skip(MostFiles))
                old.Delete();
            var fresh = Path.Combine(folder.FullName, $"{Guid.NewGuid():N}{Path.GetExtension(name)}");
            await make(fresh);
            File.Move(fresh, kept, overwrite: true);
            return kept;
        }
        finally
        {
            one.Release();
        }
    }
}
