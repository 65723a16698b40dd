using System.Security.Cryptography;
using System.Text;
using Harkbook.Audio.Recordings;
using Harkbook.Audio.Recordings.Formats;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Sounding;
using Harkbook.Units;

namespace Harkbook.Workbench.Ear;

/// <summary>What a song claims, sounded by our own strings and reeds, as WAV files in the cache folder.</summary>
public static class OwnSound
{
    private const int MostFiles = 60;

    /// <summary>Some bars, from the first one's start on.</summary>
    public static Task<string> OfBarsAsync(Song song, string text, int first, int last, CancellationToken ct) =>
        KeptAsync($"{text}\n{first}-{last}", () => Audition.Store(song, new() { FirstBar = first, LastBar = last }, ct), ct);

    /// <summary>One slow stroke over a shape, then its strings one by one.</summary>
    public static Task<string> OfShapeAsync(Song song, Shape shape, CancellationToken ct)
    {
        var bar = new Bar
        {
            Number = 1,
            Meter = Meter.CommonTime,
            Chords = [new(Beats.Zero, Beats.Whole(4), new(song.Bars.SelectMany(b => b.Chords).Select(c => c.Value.Chord).FirstOrDefault(c => !c.IsNone)
                ?? Chord.None, "shape", shape), Standing.Decided)],
            Strums = [new(Beats.Zero, Beats.Whole(4), Stroke.Down, Standing.Decided)],
        };
        var one = song with { Sections = [new("shape", [], [bar])], Tempo = new(100, Standing.Decided), Meter = new(Meter.CommonTime, Standing.Decided),
            Harp = null, Shapes = [] };
        return KeptAsync($"{shape} {song.Tuning.Value} {song.Capo.Value} {song.ReferencePitch.Value}", () => Audition.Store(one, new(), ct), ct);
    }

    private static async Task<string> KeptAsync(string identity, Func<Audio.Recordings.Samples.StoredSound> make, CancellationToken ct)
    {
        var folder = Directory.CreateDirectory(Path.Combine(CacheFolder.Path, "sounded"));
        var path = Path.Combine(folder.FullName, Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(identity)))[..40] + ".wav");
        if (File.Exists(path))
            return path;
        foreach (var old in folder.GetFiles("*.wav").OrderByDescending(f => f.LastAccessTimeUtc).Skip(MostFiles))
            old.Delete();
        await Task.Run(() =>
        {
            using var sound = make();
            WaveFile.Write(path, sound);
        }, ct);
        return path;
    }
}
