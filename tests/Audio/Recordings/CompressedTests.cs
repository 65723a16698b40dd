using Harkbook.Audio.Recordings;
using Harkbook.Audio.Recordings.Conversion;
using Harkbook.Audio.Recordings.Formats;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Audio.Tests.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Tests.Recordings;

public sealed class CompressedTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    // A coder's delay and padding (1105 samples in MP3, 2112 in some AAC) must be taken off, or every beat would be late.
    [Theory]
    [InlineData(AudioFormat.Mp3, "a.mp3", "MP3")]
    [InlineData(AudioFormat.Aac, "a.m4a", "AAC")]
    [InlineData(AudioFormat.Flac, "a.flac", "FLAC, 24-bit")]
    [InlineData(AudioFormat.Opus, "a.opus", "Opus")]
    public async Task ClickStandsAtItsSampleInEveryFormat(AudioFormat format, string name, string words)
    {
        Need.Ffmpeg();
        var samples = new float[3 * 48_000];
        samples[48_000] = 0.9f;
        samples[100_000] = -0.9f;
        await AudioEncoder.WriteAsync(folder.File(name), Tones.Mono(48_000, samples), format, Ct);
        var recording = await RecordingReader.InspectAsync(folder.File(name), Ct);
        var read = await ReadAsync(recording, 48_000);
        Assert.Equal((words, 48_000, 1), (recording.Format, recording.Rate.Hertz, recording.Channels));
        Assert.Equal(3, recording.Length.Value, 0.03);
        Assert.Equal(48_000, Array.IndexOf(read, read.Max()));
        Assert.Equal(100_000, Array.IndexOf(read, read.Min()));
        Assert.Equal([name], folder.Names);
    }

    [Fact]
    public async Task VorbisClickStandsAtItsSample()
    {
        var samples = new float[2 * 44_100];
        samples[44_100] = 0.9f;
        WaveFile.Write(folder.File("a.wav"), Tones.Mono(44_100, samples));
        await Need.MakeAsync("-i", folder.File("a.wav"), "-c:a", "libvorbis", folder.File("a.ogg"));
        var recording = await RecordingReader.InspectAsync(folder.File("a.ogg"), Ct);
        var read = await ReadAsync(recording, 44_100);
        Assert.Equal("Ogg Vorbis", recording.Format);
        Assert.Equal(44_100, Array.IndexOf(read, read.Max()));
    }

    [Fact]
    public async Task SoundOfAVideoIsRead()
    {
        await Need.MakeAsync("-f", "lavfi", "-i", "testsrc=d=2:r=5:s=64x64", "-f", "lavfi", "-i", "sine=440:d=2:r=44100", "-c:v", "mpeg4", "-c:a", "aac",
            folder.File("a.mp4"));
        var recording = await RecordingReader.InspectAsync(folder.File("a.mp4"), Ct);
        Assert.Equal("AAC, from a video", recording.Format);
        Assert.InRange((await ReadAsync(recording, 22_050)).Length, 43_000, 46_000);
    }

    // Without its header an MP3's length can only be guessed from the bit rate of the first frames, here those of silence; so it is counted.
    [Fact]
    public async Task LengthOfAnMp3WithoutAHeaderIsCounted()
    {
        Need.Ffmpeg();
        WaveFile.Write(folder.File("a.wav"), Tones.Mono(44_100, [.. new float[132_300], .. Tones.Noise(1, 308_700)]));
        await Need.MakeAsync("-i", folder.File("a.wav"), "-c:a", "libmp3lame", "-q:a", "5", "-write_xing", "0", folder.File("a.mp3"));
        Assert.Equal(10, (await RecordingReader.InspectAsync(folder.File("a.mp3"), Ct)).Length.Value, 0.1);
    }

    [Fact]
    public async Task PictureOnTheCoverDoesNotMakeAVideo()
    {
        Need.Ffmpeg();
        await AudioEncoder.WriteAsync(folder.File("plain.mp3"), Tones.Mono(44_100, Tones.Noise(1, 88_200)), AudioFormat.Mp3, Ct);
        await Need.MakeAsync("-f", "lavfi", "-i", "testsrc=d=1:r=1:s=64x64", "-frames:v", "1", folder.File("cover.png"));
        await Need.MakeAsync("-i", folder.File("plain.mp3"), "-i", folder.File("cover.png"), "-map", "0:a", "-map", "1:v", "-c", "copy", "-disposition:v",
            "attached_pic", folder.File("a.mp3"));
        var recording = await RecordingReader.InspectAsync(folder.File("a.mp3"), Ct);
        Assert.Equal("MP3", recording.Format);
        Assert.InRange((await ReadAsync(recording, 44_100)).Length, 88_200, 89_400);
    }

    // A WAV file may hold coded sound; ffmpeg reads what our own reader doesn't.
    [Theory]
    [InlineData("adpcm_ms")]
    [InlineData("pcm_mulaw")]
    public async Task CodedWaveIsReadThroughFfmpeg(string coder)
    {
        await Need.MakeAsync("-f", "lavfi", "-i", "sine=440:d=2:r=44100", "-c:a", coder, folder.File("a.wav"));
        var read = await ReadAsync(await RecordingReader.InspectAsync(folder.File("a.wav"), Ct), 44_100);
        Assert.Equal(0.125, read.Max(), 0.02);
    }

    // FLAC is lossless: the samples are those that went in, at 24 bits.
    [Fact]
    public async Task FlacGivesBackTheSamples()
    {
        Need.Ffmpeg();
        var noise = Tones.Noise(1, 96_000);
        await AudioEncoder.WriteAsync(folder.File("a.flac"), Tones.Mono(96_000, noise), AudioFormat.Flac, Ct);
        var read = await ReadAsync(await RecordingReader.InspectAsync(folder.File("a.flac"), Ct), 96_000);
        Assert.Equal(noise.Length, read.Length);
        Assert.All(noise.Zip(read), pair => Assert.Equal(pair.First, pair.Second, 1.3e-7));
    }

    [Theory]
    [InlineData(AudioFormat.Mp3, "a.mp3")]
    [InlineData(AudioFormat.Flac, "a.flac")]
    [InlineData(AudioFormat.Aac, "a.m4a")]
    public async Task FileCutInHalfIsCutShort(AudioFormat format, string name)
    {
        Need.Ffmpeg();
        await AudioEncoder.WriteAsync(folder.File("whole" + name), Tones.Mono(44_100, Tones.Noise(1, 441_000)), format, Ct);
        var bytes = await File.ReadAllBytesAsync(folder.File("whole" + name), Ct);
        folder.File(name, bytes[..(bytes.Length / 2)]);
        var e = await Assert.ThrowsAsync<RecordingException>(async () => await ReadAsync(await RecordingReader.InspectAsync(folder.File(name), Ct), 44_100));
        Assert.Contains("cut short", e.Message);
        Assert.Contains("of 10.0 s can be read", e.Message);
    }

    [Fact]
    public async Task VideoWithoutItsTableOfContentsIsCutShort()
    {
        await Need.MakeAsync("-f", "lavfi", "-i", "sine=440:d=5", "-c:a", "aac", folder.File("whole.m4a"));
        var bytes = await File.ReadAllBytesAsync(folder.File("whole.m4a"), Ct);
        await Says("a.m4a", bytes[..(bytes.Length / 2)], "cut short or damaged", "Copy or download it again");
    }

    [Fact]
    public Task TextIsNotSound() => Says("a.mp3", Bytes.Ascii("Verse: walking down the river road\n"), "isn't a sound file that can be read");

    [Fact]
    public async Task PictureWithASoundsNameIsNotSound()
    {
        await Need.MakeAsync("-f", "lavfi", "-i", "testsrc=d=1:r=1", "-frames:v", "1", folder.File("a.png"));
        await Says("a.mp3", await File.ReadAllBytesAsync(folder.File("a.png"), Ct), "there is no sound in this file", "png");
    }

    // Sample entries 'drms' (protected AAC), 'enca' (ISO/IEC 14496-12, protected sound) and 'aavd' take the place of 'mp4a'.
    [Theory]
    [InlineData("drms")]
    [InlineData("enca")]
    [InlineData("aavd")]
    public async Task ProtectedFileIsRefused(string tag)
    {
        await Need.MakeAsync("-f", "lavfi", "-i", "sine=440:d=2", "-c:a", "aac", folder.File("whole.m4a"));
        var bytes = await File.ReadAllBytesAsync(folder.File("whole.m4a"), Ct);
        Bytes.Ascii(tag).CopyTo(bytes.AsSpan(bytes.AsSpan().IndexOf("mp4a"u8)));
        await Says("a.m4p", bytes, "copy-protected", "without protection");
    }

    [Fact]
    public async Task SilenceIsRefusedAfterDecoding()
    {
        Need.Ffmpeg();
        await AudioEncoder.WriteAsync(folder.File("a.flac"), Tones.Mono(44_100, new float[88_200]), AudioFormat.Flac, Ct);
        var recording = await RecordingReader.InspectAsync(folder.File("a.flac"), Ct);
        var e = await Assert.ThrowsAsync<RecordingException>(() => ReadAsync(recording, 44_100));
        Assert.Contains("silent", e.Message);
    }

    [Theory]
    [InlineData("-dash at the start.flac")]
    [InlineData("a 'quoted' \"name\" ünïcode ♭.flac")]
    [InlineData("concat:a|b.flac")]
    public async Task OddNamesAreOnlyNames(string name)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows doesn't allow these file names.");
        Need.Ffmpeg();
        await AudioEncoder.WriteAsync(folder.File(name), Tones.Mono(44_100, Tones.Noise(1, 88_200)), AudioFormat.Flac, Ct);
        Assert.Equal(2, (await RecordingReader.InspectAsync(folder.File(name), Ct)).Length.Value);
    }

    private static CancellationToken Ct => TestContext.Current.CancellationToken;

    private static async Task<float[]> ReadAsync(Recording recording, int rate) =>
        (await RecordingReader.ReadAsync(recording, SampleRate.FromHertz(rate), true, null, Ct)).Channels[0];

    private async Task Says(string name, byte[] content, params string[] parts)
    {
        Need.Ffmpeg();
        var path = folder.File(name, content);
        var e = await Assert.ThrowsAsync<RecordingException>(() => RecordingReader.InspectAsync(path, Ct));
        Assert.All(parts, part => Assert.Contains(part, e.Message));
        Assert.StartsWith(path, e.Message);
    }
}
