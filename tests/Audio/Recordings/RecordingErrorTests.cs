using Harkbook.Audio.Recordings;
using Harkbook.Audio.Recordings.Conversion;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Units;

namespace Harkbook.Audio.Tests.Recordings;

/// <summary>Every file that can't be used gets one message: which file, what is wrong, what to do.</summary>
public sealed class RecordingErrorTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public Task MissingFile() => Says(folder.File("gone.wav"), "there is no such file", "Check the name");

    [Fact]
    public Task Folder() => Says(folder.Root, "this is a folder");

    [Fact]
    public Task NoName() => Says(" ", "No file was named");

    [Fact]
    public Task EmptyFile() => Says(folder.File("a.wav", []), "the file is empty");

    [Fact]
    public Task WaveWithoutSound() =>
        Says(folder.File("a.wav", [.. Bytes.Ascii("RIFF"), .. Bytes.Little(4), .. Bytes.Ascii("WAVE")]), "holds no sound");

    // 10 s at 8 kHz are promised (160 000 bytes) and 4 s (64 000) are there.
    [Fact]
    public Task CutShortWave() =>
        Says(folder.File("a.wav", Bytes.Wave(8000, 1, 16, 1, Bytes.Tone16(8000, 4), dataSize: 160_000)), "cut short", "4.0 s of 10.0 s can be read");

    [Fact]
    public Task CutShortAiff() =>
        Says(folder.File("a.aif", Bytes.Aiff("AIFF", 1, 16, 441_000, new byte[88_200])), "cut short", "1.0 s of 10.0 s can be read");

    [Fact]
    public Task TooShort() =>
        Says(folder.File("a.wav", Bytes.Wave(8000, 1, 16, 1, Bytes.Tone16(8000, 0.3))), "0.3 s is too short", "At least 1 s");

    [Fact]
    public async Task TooLong()
    {
        var path = folder.File("a.wav");
        await using (var stream = File.Create(path))
        {
            stream.Write(Bytes.Wave(8000, 1, 16, 1, [], dataSize: 184_320_000));
            stream.SetLength(44 + 184_320_000);
        }
        await Says(path, "3 h 12 min is too long", "3 h is the limit", "ffmpeg -ss");
    }

    [Fact]
    public Task ImpossibleRate() =>
        Says(folder.File("a.wav", Bytes.Wave(1000, 1, 16, 1, Bytes.Tone16(1000, 2))), "sample rate of 1000 Hz", "44100");

    [Fact]
    public Task NoChannels() => Says(folder.File("a.wav", Bytes.Wave(8000, 0, 16, 1, Bytes.Tone16(8000, 2))), "0 channels");

    [Fact]
    public Task Silence() => SaysOnReading(Bytes.Wave(8000, 1, 16, 1, new byte[32_000]), "silent", "-70 dB");

    [Fact]
    public Task NotANumber() => SaysOnReading(WithSample(float.NaN), "damaged", "0.5 s", "sample 4000");

    [Fact]
    public Task Infinity() => SaysOnReading(WithSample(float.PositiveInfinity), "damaged", "sample 4000");

    // BS.1770-4 counts −70 as silence; a hum a little above it is sound.
    [Fact]
    public async Task VeryQuietSoundIsStillSound()
    {
        var samples = new float[16_000];
        samples[100] = 3.3e-4f;
        var recording = await RecordingReader.InspectAsync(folder.File("a.wav", Bytes.Wave(8000, 1, 32, 3, Bytes.Floats(samples))), Ct);
        Assert.Equal(16_000, (await RecordingReader.ReadAsync(recording, recording.Rate, true, null, Ct)).Length);
    }

    [Fact]
    public async Task NoPermission()
    {
        var e = await Assert.ThrowsAsync<RecordingException>(() =>
            FileErrors.InWordsAsync<int>("song.wav", () => throw new UnauthorizedAccessException()));
        Assert.Contains("song.wav: no permission", e.Message);
    }

    [Fact]
    public async Task MissingFfmpegSaysHowToInstallIt()
    {
        var path = folder.File("a.mp3", Bytes.Ascii("ID3 and whatever follows it"));
        var e = await Assert.ThrowsAsync<RecordingException>(() => RecordingReader.InspectAsync(path, Ffmpeg.FindIn(folder.Root), Ct));
        Assert.Contains(path, e.Message);
        Assert.Contains("sudo apt-get install ffmpeg", e.Message);
        Assert.Contains("brew install ffmpeg", e.Message);
        Assert.Contains("winget install", e.Message);
    }

    [Fact]
    public async Task FileThatWentAwayAfterALook()
    {
        var path = folder.File("a.wav", Bytes.Wave(8000, 1, 16, 1, Bytes.Tone16(8000, 2)));
        var recording = await RecordingReader.InspectAsync(path, Ct);
        File.Delete(path);
        var e = await Assert.ThrowsAsync<RecordingException>(() => RecordingReader.ReadAsync(recording, recording.Rate, true, null, Ct));
        Assert.Contains("no such file", e.Message);
    }

    private static CancellationToken Ct => TestContext.Current.CancellationToken;

    private static byte[] WithSample(float bad)
    {
        var samples = Enumerable.Repeat(0.1f, 16_000).ToArray();
        samples[4000] = bad;
        return Bytes.Wave(8000, 1, 32, 3, Bytes.Floats(samples));
    }

    private static async Task Says(string path, params string[] parts)
    {
        var e = await Assert.ThrowsAsync<RecordingException>(() => RecordingReader.InspectAsync(path, Ct));
        Assert.All(parts, part => Assert.Contains(part, e.Message));
        Assert.StartsWith(path.Trim(), e.Message);
    }

    private async Task SaysOnReading(byte[] file, params string[] parts)
    {
        var recording = await RecordingReader.InspectAsync(folder.File("a.wav", file), Ct);
        var e = await Assert.ThrowsAsync<RecordingException>(() => RecordingReader.ReadAsync(recording, SampleRate.FromHertz(22_050), true, null, Ct));
        Assert.All(parts, part => Assert.Contains(part, e.Message));
        Assert.StartsWith(recording.Path, e.Message);
    }
}
