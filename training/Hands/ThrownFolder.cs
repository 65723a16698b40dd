using System.Collections.Immutable;
using Harkbook.Audio.Recordings.Formats;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Demo;
using Harkbook.Listening;
using Harkbook.Listening.Evidence;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Training.Hands;

/// <summary>Thrown songs, played by our own strings and voice, and what is heard of them. What is there isn't made again.</summary>
internal static class ThrownFolder
{
    public static async Task MakeAsync(string folder, int first, int count)
    {
        Directory.CreateDirectory(folder);
        for (var seed = first; seed < first + count; seed++)
        {
            var stem = Path.Combine(folder, $"thrown-{seed}");
            if (File.Exists(stem + ".evidence"))
                continue;
            var (text, performance) = ThrownSong.Throw(seed);
            var document = SongText.Parse(text, stem);
            var song = document.Song ?? throw new InvalidOperationException($"{stem}: {string.Join("; ", document.Diagnostics)}\n{text}");
            var take = DemoRecording.Render(song, performance);
            WaveFile.Write(stem + ".wav", take.Sound);
            File.WriteAllText(stem + ".hark", SongText.Write(Anchored(song, take.Truth)));
            EvidenceFile.Write(await new Listener().GatherAsync(await RecordingReader.InspectAsync(stem + ".wav", default), null, default), stem + ".evidence");
            Console.WriteLine($"{stem}: {song.Bars.Count()} bars, {take.Sound.Duration.Value:0} s");
        }
    }

    /// <summary>Every bar at the time at which it was played.</summary>
    private static Song Anchored(Song song, DemoTruth truth)
    {
        var starts = new Queue<double>(truth.Beats.Where(b => b.PositionInBar == 1).Select(b => Math.Round(b.Time.Value, 3)));
        return song with
        {
            Sections = [.. song.Sections.Select(s => s with
            {
                Anchors = [.. s.Bars.Select((_, i) => new Anchor(i + 1, Seconds.FromSeconds(starts.Dequeue())))],
            })],
        };
    }
}
