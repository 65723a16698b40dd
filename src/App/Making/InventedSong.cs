using Harkbook.Audio.Recordings;
using Harkbook.Audio.Recordings.Formats;
using Harkbook.Demo;
using Harkbook.Jobs.Files;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.App.Making;

/// <summary>A song of the invented songbook: its teacher's song file, and how its players play it.</summary>
/// <param name="Written">The song file's text.</param>
internal sealed record InventedSong(string Name, string Written, Song Song, DemoPerformance Performance)
{
    /// <summary>The folders that the songs lie in, in their order.</summary>
    public static IReadOnlyList<string> Sources =>
        [.. Directory.GetDirectories(Path.Combine(AppContext.BaseDirectory, "songbook")).Order(StringComparer.Ordinal)];

    public static async Task<InventedSong> ReadAsync(string source, CancellationToken ct)
    {
        var name = Path.GetFileName(source);
        var written = await File.ReadAllTextAsync(Path.Combine(source, name + SongFolder.Ending), ct);
        var document = SongText.Parse(written, name + SongFolder.Ending);
        var song = document.Song ?? throw new UserException($"{name}: the demo's song has mistakes: {string.Join("; ", document.Diagnostics)}");
        return new(name, written, song, DemoPerformance.Parse(await File.ReadAllTextAsync(Path.Combine(source, "performance.json"), ct)));
    }

    public string RecordingIn(string folder) => Path.Combine(folder, Name + ".wav");

    public string SongIn(string folder) => Path.Combine(folder, Name + SongFolder.Ending);

    /// <summary>Has it played, and writes the recording into a folder, which is made.</summary>
    public async Task<DemoTake> RecordAsync(string folder, CancellationToken ct)
    {
        var take = await Task.Run(() => DemoRecording.Render(Song, Performance, ct), ct);
        Directory.CreateDirectory(folder);
        WaveFile.Write(RecordingIn(folder), take.Sound);
        return take;
    }

    /// <summary>All of them with their recordings in folders of their own, for the workbench.</summary>
    public static async Task MakeAllAsync(string folder, IProgress<Progress> progress, CancellationToken ct)
    {
        for (var i = 0; i < Sources.Count; i++)
        {
            var song = await ReadAsync(Sources[i], ct);
            progress.Report(new($"playing and recording {song.Song.Title}", (double)i / Sources.Count));
            var own = Path.Combine(folder, song.Name);
            await song.RecordAsync(own, ct);
            AtomicFile.Write(song.SongIn(own), stream => stream.Write(System.Text.Encoding.UTF8.GetBytes(song.Written)));
        }
        progress.Report(new("done", 1));
    }
}
