using System.Diagnostics;
using Harkbook.Audio.Recordings;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Engraving;
using Harkbook.Publishing.Lessons;
using Harkbook.Publishing.Lessons.Pieces;
using Harkbook.Publishing.Lessons.Sounds;

namespace Harkbook.Bench.Speed;

/// <summary>How long a lesson takes the first time, again as it is, and again after one chord was changed; by the wall clock, ffmpeg's work and all.</summary>
internal static class PublishingSpeed
{
    public static async Task<IReadOnlyList<Row>> MeasureAsync(string songPath)
    {
        var song = SongText.Parse(await File.ReadAllTextAsync(songPath), songPath).Song ?? throw new InvalidOperationException($"{songPath}: the song file has mistakes.");
        var reference = song.Recording ?? throw new InvalidOperationException($"{songPath}: names no recording.");
        var recording = await RecordingReader.InspectAsync(Path.Combine(Path.GetDirectoryName(Path.GetFullPath(songPath))!, reference.Path));
        var folder = Directory.CreateTempSubdirectory("harkbook-bench-");
        try
        {
            var (first, _) = await PublishAsync(song, recording, folder.FullName);
            var (same, _) = await PublishAsync(song, recording, folder.FullName);
            var (changed, kept) = await PublishAsync(OneChordChanged(song), recording, folder.FullName);
            return [Row("the first time", first, null), Row("again, nothing changed", same, first), Row($"again, one chord changed ({kept})", changed, first)];
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static Row Row(string what, double seconds, double? first) => new($"publish, {what}", $"{seconds:0.0} s", first / seconds);

    private static async Task<(double Seconds, string Kept)> PublishAsync(Song song, Recording recording, string folder)
    {
        var watch = Stopwatch.StartNew();
        var options = new PublishOptions(LessonParts.All, PaperSize.A4, new(2026, 1, 1));
        var store = new PieceStore(Path.Combine(folder, "store"), TimeProvider.System);
        var files = await new LessonPublisher(song, LessonSound.Of(recording), Path.Combine(folder, "lesson"), options, store).PublishAsync(null, CancellationToken.None);
        return (watch.Elapsed.TotalSeconds, files.Single(f => f.Path.EndsWith(".mp4", StringComparison.Ordinal)).Kept);
    }

    /// <summary>The first chord of a bar in the song's middle becomes another of its chords.</summary>
    private static Song OneChordChanged(Song song)
    {
        var bars = song.Bars.Where(b => !b.Chords.IsEmpty).ToArray();
        var bar = bars[bars.Length / 2];
        var other = bars.SelectMany(b => b.Chords).First(c => c.Value.Name != bar.Chords[0].Value.Name).Value;
        var changed = bar with { Chords = bar.Chords.SetItem(0, bar.Chords[0] with { Value = other }) };
        return song with { Sections = [.. song.Sections.Select(s => s with { Bars = [.. s.Bars.Select(b => b.Number == bar.Number ? changed : b)] })] };
    }
}
