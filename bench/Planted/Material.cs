using Harkbook.Audio.Recordings;
using Harkbook.Listening;
using Harkbook.Listening.Interchange;
using Harkbook.Music.Songs;

namespace Harkbook.Bench.Planted;

/// <summary>A right transcription, a song or an annotation, of one recording, and what was heard of it.</summary>
internal sealed record Material(string Group, string Name, Hearing Hearing)
{
    public Song? Song { get; init; }

    public Annotation? Annotation { get; init; }

    public double Minutes => Hearing.Recording.Length.Value / 60;

    /// <summary>A folder's song files, else its annotations, each beside its recording; heard once, and kept.</summary>
    public static async Task<List<Material>> ReadAsync(string group, string folder, string hearings)
    {
        var found = new List<Material>();
        var songs = Directory.GetFiles(folder, "*.hark", SearchOption.AllDirectories);
        foreach (var file in (songs.Length > 0 ? songs : Directory.GetFiles(folder, "*.jams", SearchOption.AllDirectories)).Order(StringComparer.Ordinal))
        {
            var sound = new[] { ".wav", ".flac", ".ogg" }.Select(e => Path.ChangeExtension(file, e)).FirstOrDefault(File.Exists);
            if (sound is null)
                continue;
            var heard = new Material(group, Path.GetFileNameWithoutExtension(file), await HearAsync(sound, hearings));
            found.Add(songs.Length > 0 ? heard with { Song = SongText.Parse(File.ReadAllText(file), file).Song } : heard with { Annotation = AnnotationFile.Read(file) });
            Console.Error.Write('.');
        }
        return found;
    }

    /// <summary>
    /// A hearing kept under the recording's name, whatever build made it: planting changes songs, not sounds, so a change of the check alone isn't
    /// paid with listening again. Delete the folder after a change of listening.
    /// </summary>
    private static async Task<Hearing> HearAsync(string sound, string hearings)
    {
        var recording = await RecordingReader.InspectAsync(sound, default);
        var kept = Path.Combine(hearings, $"{recording.ContentHash[..16]}.json");
        if (File.Exists(kept))
        {
            await using var stream = File.OpenRead(kept);
            return HearingJson.Read(stream) with { Recording = recording };
        }
        var hearing = await new Listener().ListenAsync(recording, null, default);
        Directory.CreateDirectory(hearings);
        await using (var stream = File.Create(kept))
            HearingJson.Write(hearing, stream);
        return hearing;
    }
}
