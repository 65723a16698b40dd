using System.Globalization;
using Harkbook.Publishing.Lessons;

namespace Harkbook.Publishing.Tests.Lessons;

/// <summary>A song of 17 seconds, so of five pieces of video, that is published again after a change.</summary>
public sealed class KeptPiecesTests
{
    private const double Length = 17;

    private const string Text = """
        title   Seventeen Seconds
        meter   4/4
        tempo   240
        key     C major
        shape C x32010
        shape G 320003
        shape F 133211
        section Verse
          anchors 1 = 0:00.000
          chords | C | C | C | C | C | C | C | C | G | C | C | C | C | C | C | C |
        """;

    /// <summary>
    /// The chord of bar 9 stands on the screen as the next one from bar 1 on, and is named F instead; from the line of bar 11 on (10 s) it
    /// is no longer seen. So the two pieces from 12 s on are kept, and no other.
    /// </summary>
    [Fact]
    public async Task OnlyPiecesThatLookOtherAreMadeAgainAndNoneCanBeToldFromThoseMadeAtOnce()
    {
        Programs.NeedFfmpeg();
        using var folder = new TemporaryFolder();
        var changed = Text.Replace("| G |", "| F |", StringComparison.Ordinal);
        Assert.Equal(new(0, 5), await WriteAsync(Text, folder, "store", "first.mp4"));
        Assert.Equal(new(2, 5), await WriteAsync(changed, folder, "store", "again.mp4"));
        Assert.Equal(new(0, 5), await WriteAsync(changed, folder, "other", "at-once.mp4"));
        Assert.Equal(new(5, 5), await WriteAsync(Text, folder, "store", "back.mp4"));

        Assert.Equal(await FramesAsync(folder.At("at-once.mp4")), await FramesAsync(folder.At("again.mp4")));
        Assert.Equal(await File.ReadAllBytesAsync(folder.At("first.mp4"), Token), await File.ReadAllBytesAsync(folder.At("back.mp4"), Token));
        Assert.NotEqual(await FramesAsync(folder.At("first.mp4")), await FramesAsync(folder.At("again.mp4")));
    }

    /// <summary>Thirty frames a second for 17 seconds, each a thirtieth after the one before, the sound as long as they are.</summary>
    [Fact]
    public async Task JoinedPiecesKeepTime()
    {
        Programs.NeedFfmpeg();
        using var folder = new TemporaryFolder();
        await WriteAsync(Text, folder, "store", "v.mp4");
        var times = System.Text.Encoding.UTF8.GetString(await Programs.FfprobeAsync("-select_streams", "v", "-show_entries", "frame=pts_time", "-of", "csv=p=0",
            folder.At("v.mp4")))
            .Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
            .Select(t => double.Parse(t.Trim(','), CultureInfo.InvariantCulture)).ToArray();
        Assert.Equal(17 * 30, times.Length);
        Assert.All(times.Index(), t => Assert.Equal(t.Index / 30.0, t.Item, 0.0001));
        var lengths = System.Text.Encoding.UTF8.GetString(await Programs.FfprobeAsync("-show_entries", "stream=duration", "-of", "csv=p=0", folder.At("v.mp4")))
            .Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(t => double.Parse(t, CultureInfo.InvariantCulture));
        Assert.All(lengths, l => Assert.Equal(Length, l, 0.03));
    }

    /// <summary>One bit of a kept piece is turned: it is made again, and the video is what it was.</summary>
    [Fact]
    public async Task APieceThatWasDamagedIsntTaken()
    {
        Programs.NeedFfmpeg();
        using var folder = new TemporaryFolder();
        await WriteAsync(Text, folder, "store", "first.mp4");
        foreach (var piece in Directory.GetFiles(folder.At("store")))
        {
            var bytes = await File.ReadAllBytesAsync(piece, Token);
            bytes[^1] ^= 1;
            await File.WriteAllBytesAsync(piece, bytes, Token);
        }
        Assert.Equal(new(0, 5), await WriteAsync(Text, folder, "store", "again.mp4"));
        Assert.Equal(await File.ReadAllBytesAsync(folder.At("first.mp4"), Token), await File.ReadAllBytesAsync(folder.At("again.mp4"), Token));
    }

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private static async Task<VideoPiecesUsed> WriteAsync(string song, TemporaryFolder folder, string store, string name)
    {
        var sound = await LessonSongs.SoundAsync(folder.Path, Length);
        return await PlayAlongVideo.WriteAsync(new(LessonSongs.Read(song)), sound, folder.At(name), new(folder.At(store), TimeProvider.System), null, Token);
    }

    /// <summary>The hash of each decoded frame.</summary>
    private static async Task<string> FramesAsync(string path) =>
        System.Text.Encoding.UTF8.GetString(await Programs.FfmpegAsync("-i", path, "-map", "0:v", "-f", "framemd5", "pipe:1"));
}
