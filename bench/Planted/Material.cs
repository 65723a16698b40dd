using Harkbook.Audio.Recordings;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Bench.Rereading;
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
        var songs = Directory.GetFiles(folder, "*.hark", SearchOption.AllDirectories);
        var files = (songs.Length > 0 ? songs : Directory.GetFiles(folder, "*.jams", SearchOption.AllDirectories)).Order(StringComparer.Ordinal)
            .Select(f => (File: f, Sound: EvidenceFolder.RecordingBeside(f)));
        return [.. await Task.WhenAll(files.Where(f => f.Sound is not null).Select(f => Task.Run(async () =>
        {
            var heard = new Material(group, Path.GetFileNameWithoutExtension(f.File), await HearAsync(f.Sound!, hearings));
            Console.Error.Write('.');
            return songs.Length > 0 ? heard with { Song = Played(SongText.Parse(File.ReadAllText(f.File), f.File).Song!, group) }
                : heard with { Annotation = AnnotationFile.Read(f.File) };
        })))];
    }

    /// <summary>A sound font strikes every note, so in its renderings nothing is hammered or pulled.</summary>
    private static Song Played(Song song, string group) => !group.EndsWith("font", StringComparison.Ordinal) ? song : song with
    {
        Sections = [.. song.Sections.Select(s => s with { Bars = [.. s.Bars.Select(b => b with { Picked = [.. b.Picked.Select(Struck)] })] })],
    };

    private static Claim<PickedNote> Struck(Claim<PickedNote> note) => note with { Value = note.Value with { Attack = Attack.Picked } };

    /// <summary>
    /// Evidence kept beside the recording (bench -- evidence) or under its name, whatever build heard it, and read anew: planting changes songs, not
    /// sounds, so a change of reading or checking isn't paid with listening again. Delete the folder after a change of what is heard.
    /// </summary>
    private static async Task<Hearing> HearAsync(string sound, string hearings)
    {
        if (File.Exists(EvidenceFolder.KeptBeside(sound)))
            return await EvidenceFolder.ReadAsync(EvidenceFolder.KeptBeside(sound), Claims.None);
        var recording = await RecordingReader.InspectAsync(sound, default);
        var store = new HearingStore(hearings) { Key = "planted" };
        if (store.Find(recording) is { } kept)
            return Reader.Read(recording, kept.Evidence, Claims.None);
        var hearing = await new Listener().ListenAsync(recording, null, default);
        store.Keep(hearing);
        return hearing;
    }
}
