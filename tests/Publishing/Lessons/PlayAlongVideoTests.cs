using System.Globalization;
using System.Runtime.InteropServices;
using System.Text.Json;
using Harkbook.Publishing.Lessons;

namespace Harkbook.Publishing.Tests.Lessons;

public sealed class PlayAlongVideoTests(PublishedLesson lesson) : IClassFixture<PublishedLesson>
{
    /// <summary>ITU-T H.264, table A-1: level 4.0 suffices for 8160 macroblocks thirty times a second (244 800 of 245 760).</summary>
    [Fact]
    public async Task FfprobeReadsWhatPlayersExpect()
    {
        Programs.NeedFfmpeg();
        using var json = JsonDocument.Parse(await Programs.FfprobeAsync("-show_streams", "-show_format", "-of", "json", lesson.At("play-along.mp4")));
        var streams = json.RootElement.GetProperty("streams").EnumerateArray().ToDictionary(s => s.GetProperty("codec_type").GetString()!);
        var (video, sound) = (streams["video"], streams["audio"]);
        Assert.Equal(("h264", "yuv420p", 40), (video.GetProperty("codec_name").GetString(), video.GetProperty("pix_fmt").GetString(),
            video.GetProperty("level").GetInt32()));
        Assert.Equal((1920, 1080, "30/1"), (video.GetProperty("width").GetInt32(), video.GetProperty("height").GetInt32(),
            video.GetProperty("r_frame_rate").GetString()));
        Assert.Equal("bt709", video.GetProperty("color_space").GetString());
        Assert.Equal(("aac", 2), (sound.GetProperty("codec_name").GetString(), sound.GetProperty("channels").GetInt32()));
        Assert.Equal(PublishedLesson.Length, Seconds(json.RootElement.GetProperty("format")), 0.1);
        Assert.Equal(PublishedLesson.Length, Seconds(video), 0.1);
    }

    /// <summary>
    /// The left column shows the new chord in the frame whose time holds the change, and stands still before it. ITU-R
    /// BT.1359-1 puts the earliest that people notice at 45 ms; half a frame is 17.
    /// </summary>
    [Fact]
    public async Task TheChordChangesInItsFrame()
    {
        Programs.NeedFfmpeg();
        const int Size = 180 * 120;
        var pixels = await Programs.FfmpegAsync("-i", lesson.At("play-along.mp4"), "-vf", "crop=540:360:56:124,scale=180:120,format=gray", "-f",
            "rawvideo", "pipe:1");
        Assert.Equal(PublishedLesson.Length * 30, pixels.Length / (double)Size, 1.0);
        var change = (int)Math.Ceiling(PublishedLesson.Change * 30 - 0.5);
        Assert.InRange(Difference(change - 2, change - 1), 0, 0.6);
        Assert.True(Difference(change - 1, change) > 2, $"Frames {change - 1} and {change} differ by {Difference(change - 1, change)} grey levels.");

        double Difference(int one, int other) =>
            Enumerable.Range(0, Size).Average(i => Math.Abs(pixels[one * Size + i] - pixels[other * Size + i]));
    }

    [Fact]
    public async Task TheSoundKeepsItsPlace()
    {
        Programs.NeedFfmpeg();
        var bytes = await Programs.FfmpegAsync("-i", lesson.At("play-along.mp4"), "-vn", "-ac", "1", "-ar", "48000", "-f", "f32le", "pipe:1");
        var samples = MemoryMarshal.Cast<byte, float>(bytes).ToArray();
        var loudest = Array.IndexOf(samples, samples.Max());
        Assert.Equal(PublishedLesson.Change, loudest / 48000.0, 0.01);
    }

    [Fact]
    public async Task ACancelledVideoLeavesNoFile()
    {
        Programs.NeedFfmpeg();
        using var folder = new TemporaryFolder();
        var sound = await LessonSongs.SoundAsync(folder.Path, PublishedLesson.Length);
        using var stop = new CancellationTokenSource();
        var progress = new Stopper(stop);
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() =>
            PlayAlongVideo.WriteAsync(new(LessonSongs.FourBars), sound, folder.At("v.mp4"), LessonSongs.StoreIn(folder), progress, stop.Token));
        Assert.Equal([folder.At("sound.wav"), folder.At("store")], Directory.GetFileSystemEntries(folder.Path).Order());
    }

    private static double Seconds(JsonElement element) => double.Parse(element.GetProperty("duration").GetString()!, CultureInfo.InvariantCulture);

    private sealed class Stopper(CancellationTokenSource stop) : IProgress<double>
    {
        public void Report(double value)
        {
            if (value > 0)
                stop.Cancel();
        }
    }
}
