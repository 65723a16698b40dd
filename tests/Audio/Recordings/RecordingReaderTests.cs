using Harkbook.Audio.Recordings.Formats;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Audio.Signals;
using Harkbook.Audio.Tests.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Tests.Recordings;

public sealed class RecordingReaderTests : IDisposable
{
    private static readonly SampleRate listening = SampleRate.FromHertz(22_050);
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task InspectingSaysWhatTheFileIs()
    {
        var path = folder.File("a.wav");
        WaveFile.Write(path, new Signal(SampleRate.FromHertz(48_000), new float[96_000], new float[96_000]), WaveDepth.Bits24);
        var recording = await RecordingReader.InspectAsync(path, Ct);
        Assert.Equal((path, 48_000, 2, 2.0, "WAV, 24-bit"),
            (recording.Path, recording.Rate.Hertz, recording.Channels, recording.Length.Value, recording.Format));
    }

    // SHA-256 (FIPS 180-4) as the framework computes it over the whole file at once.
    [Fact]
    public async Task HashIsSha256OfTheBytes()
    {
        var path = folder.File("a.wav", Bytes.Wave(8000, 1, 16, 1, Bytes.Tone16(8000, 1)));
        var recording = await RecordingReader.InspectAsync(path, Ct);
        Assert.Equal(Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(await File.ReadAllBytesAsync(path, Ct))), recording.ContentHash);
    }

    [Theory]
    [InlineData(8_000)]
    [InlineData(44_100)]
    [InlineData(96_000)]
    public async Task EveryRateComesOutAtTheRateWanted(int rate)
    {
        var signal = await ReadAsync(Tones.Mono(rate, Tones.Sine(440, rate, 2 * rate, 0.5)), mono: true);
        Assert.Equal((listening, 44_100), (signal.Rate, signal.Length));
        var expected = Tones.Sine(440, 22_050, 44_100, 0.5);
        Assert.All(Enumerable.Range(5000, 30_000), n => Assert.Equal(expected[n], signal.Channels[0][n], 1e-3));
    }

    [Fact]
    public async Task MonoIsTheMeanOfAllChannels()
    {
        var channels = Enumerable.Range(1, 6).Select(level => Enumerable.Repeat(level / 10f, 44_100).ToArray()).ToArray();
        var signal = await ReadAsync(new Signal(listening, channels), mono: true);
        Assert.Single(signal.Channels);
        Assert.Equal(0.35, signal.Channels[0][20_000], 1e-4);
    }

    [Fact]
    public async Task ChannelsStayApartWhenAskedFor()
    {
        var signal = await ReadAsync(new Signal(listening, Tones.Sine(440, 22_050, 44_100, 0.5), new float[44_100]), mono: false);
        Assert.Equal(2, signal.Channels.Count);
        Assert.True(Tones.Rms(signal.Channels[0]) > 0.3);
        Assert.Equal(0, Tones.Rms(signal.Channels[1]));
    }

    [Fact]
    public async Task ProgressRisesToOne()
    {
        var path = folder.File("a.wav", Bytes.Wave(44_100, 1, 16, 1, Bytes.Tone16(44_100, 5)));
        var recording = await RecordingReader.InspectAsync(path, Ct);
        var steps = new Steps();
        await RecordingReader.ReadAsync(recording, listening, true, steps, Ct);
        Assert.True(steps.Values.Count > 5);
        Assert.Equal(steps.Values.Order(), steps.Values);
        Assert.Equal(1, steps.Values[^1]);
    }

    [Fact]
    public async Task CancellingStopsReading()
    {
        var path = folder.File("a.wav", Bytes.Wave(44_100, 1, 16, 1, Bytes.Tone16(44_100, 5)));
        var recording = await RecordingReader.InspectAsync(path, Ct);
        using var stop = new CancellationTokenSource();
        var steps = new Steps(stop.Cancel);
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => RecordingReader.ReadAsync(recording, listening, true, steps, stop.Token));
        Assert.Single(steps.Values);
    }

    private static CancellationToken Ct => TestContext.Current.CancellationToken;

    private async Task<Signal> ReadAsync(Signal signal, bool mono)
    {
        WaveFile.Write(folder.File("a.wav"), signal, WaveDepth.Float32);
        var recording = await RecordingReader.InspectAsync(folder.File("a.wav"), Ct);
        return await RecordingReader.ReadAsync(recording, listening, mono, null, Ct);
    }

    private sealed class Steps(Action? then = null) : IProgress<double>
    {
        public List<double> Values { get; } = [];

        public void Report(double value)
        {
            Values.Add(value);
            then?.Invoke();
        }
    }
}
