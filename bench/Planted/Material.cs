using Harkbook.Audio.Recordings;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Listening;
using Harkbook.Listening.Interchange;
using Harkbook.Listening.Reading;
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
            found.Add(songs.Length > 0 ? heard with { Song = Played(SongText.Parse(File.ReadAllText(file), file).Song!, group) }
                : heard with { Annotation = AnnotationFile.Read(file) });
            Console.Error.Write('.');
        }
        return found;
    }

    /// <summary>A sound font strikes every note, so in its renderings nothing is hammered or pulled.</summary>
    private static Song Played(Song song, string group) => !group.EndsWith("font", StringComparison.Ordinal) ? song : song with
    {
        Sections = [.. song.Sections.Select(s => s with { Bars = [.. s.Bars.Select(b => b with { Picked = [.. b.Picked.Select(Struck)] })] })],
    };

    private static Claim<PickedNote> Struck(Claim<PickedNote> note) => note with { Value = note.Value with { Attack = Attack.Picked } };

    /// <summary>
    /// Evidence kept under the recording's name, whatever build heard it, and read anew: planting changes songs, not sounds, so a change of reading or
    /// checking isn't paid with listening again. Delete the folder after a change of what is heard.
    /// </summary>
    private static async Task<Hearing> HearAsync(string sound, string hearings)
    {
        var recording = await RecordingReader.InspectAsync(sound, default);
        var store = new HearingStore(hearings) { Key = "planted" };
        if (store.Find(recording) is { } kept)
            return Reader.Read(recording, kept.Evidence, Claims.None);
        var hearing = await new Listener().ListenAsync(recording, null, default);
        store.Keep(hearing);
        return hearing;
    }
}
