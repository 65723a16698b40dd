using Harkbook.Audio.Recordings;
using Harkbook.Audio.Recordings.Formats;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Audio.Recordings.Samples;
using Harkbook.Audio.Signals;
using Harkbook.Audio.Tests.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Tests.Recordings;

public sealed class StoredSoundTests : IDisposable
{
    private static readonly SampleRate listening = SampleRate.FromHertz(22_050);

    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task ARecordingIsStoredAsItIsRead()
    {
        WaveFile.Write(folder.File("a.wav"), new Signal(SampleRate.FromHertz(44_100), Tones.Noise(1, 70_001), Tones.Noise(2, 70_001)), WaveDepth.Float32);
        var recording = await RecordingReader.InspectAsync(folder.File("a.wav"), Ct);
        var read = await RecordingReader.ReadAsync(recording, listening, mono: false, null, Ct);
        using var stored = await RecordingReader.StoreAsync(recording, listening, null, Ct);
        Assert.Equal((read.Length, read.ChannelCount, read.Rate), (stored.Length, stored.ChannelCount, stored.Rate));
        Assert.Equal(read.Channels, stored.Cut(0, stored.Length).Channels);
    }

    [Fact]
    public void NothingStaysBehind()
    {
        using (var file = SampleFile.Create(folder.Root))
        {
            file.Add([1, 2, 3]);
            // Where a file lives on without its name, not even a crash leaves it behind.
            Assert.Equal(OperatingSystem.IsWindows() ? 1 : 0, folder.Names.Length);
            var last = new float[2];
            file.Read(1, last);
            Assert.Equal([2, 3], last);
        }
        Assert.Empty(folder.Names);
    }

    [Fact]
    public void AFolderThatIsNotThereIsTold()
    {
        var e = Assert.Throws<UnwritableFileException>(() => SampleFile.Create(folder.File("gone")));
        Assert.Contains(folder.File("gone"), e.Message, StringComparison.Ordinal);
        Assert.Contains("TMPDIR", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void NoChannelsIsAMistake() => Assert.Throws<ArgumentException>(() => StoredSound.Of(listening, []));

    private static CancellationToken Ct => TestContext.Current.CancellationToken;
}
