using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Audio.Recordings.Formats;
using Harkbook.Bench.Outside;
using Harkbook.Demo;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Bench.Planted;

/// <summary>
/// Makes a folder of right songs with their recordings, for planting errors in: composed ones, or those of a songbook, each bar tied to the time at
/// which it was really played.
/// A recording that is there isn't made again.
/// </summary>
internal static class ComposedFolder
{
    /// <param name="withFont">By the small sound font instead of our own strings, reeds and voice.</param>
    public static int Write(string into, int count, int seed, bool withFont)
    {
        for (var i = 0; i < count; i++)
        {
            var own = seed * 100 + i;
            var composer = new SongComposer(own);
            var a4 = withFont ? 440 : 440 * Math.Pow(2, (own * 37 % 61 - 30) / 1200.0);
            var name = $"song-{own}";
            var document = SongText.Parse(composer.Write(name + ".wav", a4), name);
            var song = document.Song ?? throw new InvalidOperationException($"{name}: {string.Join("; ", document.Diagnostics)}\n{document.Text}");
            var performance = new DemoPerformance
            {
                Seed = own,
                Strings = own % 3 == 0 ? "nylon" : "steel",
                RoomSeconds = 0.3 + 0.1 * (own % 5),
            };
            Write(into, name, song, performance, withFont);
        }
        return 0;
    }

    public static int WriteSongbook(string into, string songbook)
    {
        foreach (var file in Directory.GetFiles(songbook, "*.hark", SearchOption.AllDirectories).Order(StringComparer.Ordinal))
        {
            var performance = Path.Combine(Path.GetDirectoryName(file)!, "performance.json");
            if (File.Exists(performance) && SongText.Parse(File.ReadAllText(file), file).Song is { } song)
                Write(into, Path.GetFileNameWithoutExtension(file), song, DemoPerformance.Parse(File.ReadAllText(performance)), withFont: false);
        }
        return 0;
    }

    private static void Write(string into, string name, Song song, DemoPerformance performance, bool withFont)
    {
        Directory.CreateDirectory(into);
        var wave = Path.Combine(into, name + ".wav");
        var truth = DemoRecording.TruthOf(song, performance);
        if (!File.Exists(wave) && withFont)
        {
            var midi = Path.Combine(into, name + ".mid");
            MidiBand.Write(midi, truth, performance.Seed);
            FluidSynth.Render(midi, wave, 600);
            File.Delete(midi);
        }
        else if (!File.Exists(wave))
            WaveFile.Write(wave, DemoRecording.Render(song, performance).Sound);
        File.WriteAllText(Path.Combine(into, name + ".hark"), SongText.Write(Anchored(song, truth)));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{wave}: {song.Bars.Count()} bars, {song.Key.Value}, {song.Meter.Value}, tuning {song.Tuning.Value}, capo {song.Capo.Value.Fret}"));
    }

    /// <summary>Every bar at the time at which it was played, to the millisecond as song files write it.</summary>
    private static Song Anchored(Song song, DemoTruth truth)
    {
        var starts = truth.Beats.Where(b => b.PositionInBar == 1).Select(b => Seconds.FromSeconds(Math.Round(b.Time.Value, 3))).ToArray();
        var first = 0;
        var sections = ImmutableArray.CreateBuilder<Section>();
        foreach (var section in song.Sections)
        {
            var anchors = section.Bars.Select((_, i) => new Anchor(i + 1, starts[first + i]));
            if (first + section.Bars.Length == starts.Length)
                anchors = anchors.Append(Last(section, truth));
            sections.Add(section with { Anchors = [.. anchors] });
            first += section.Bars.Length;
        }
        return song with { Sections = sections.ToImmutable() };
    }

    /// <summary>The song's last beat: players slow down to it.</summary>
    private static Anchor Last(Section section, DemoTruth truth) =>
        new(section.Bars.Length, Seconds.FromSeconds(Math.Round(truth.Beats[^1].Time.Value, 3))) { Beat = Beats.Whole(truth.Beats[^1].PositionInBar - 1) };
}
