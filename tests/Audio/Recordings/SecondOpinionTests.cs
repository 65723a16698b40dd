using System.Globalization;
using System.Runtime.InteropServices;
using System.Text.RegularExpressions;
using Harkbook.Audio.Recordings;
using Harkbook.Audio.Recordings.Formats;
using Harkbook.Audio.Signals;
using Harkbook.Audio.Tests.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Tests.Recordings;

/// <summary>The same work done by programs that share no code with ours: the SoX resampler and ffmpeg's EBU R 128 meter.</summary>
public sealed class SecondOpinionTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    // Noise below 8 kHz is in the passband of both, so that only level, timing and aliases could differ.
    [Theory]
    [InlineData(44_100, 22_050)]
    [InlineData(48_000, 22_050)]
    [InlineData(22_050, 48_000)]
    public async Task ResamplingAgreesWithSoxr(int from, int to)
    {
        var filter = Biquad.LowPass(SampleRate.FromHertz(from), Hertz.FromHertz(2000), 0.7);
        var noise = filter.Filter(filter.Filter(filter.Filter(filter.Filter(Tones.Noise(1, 2 * from)))));
        WaveFile.Write(folder.File("a.wav"), Tones.Mono(from, noise), WaveDepth.Float32);
        await using var process = Need.Ffmpeg().Start(
            ["-i", folder.File("a.wav"), "-af", $"aresample={to}:resampler=soxr:precision=28", "-f", "f32le", "pipe:1"], "Resampling", Ct);
        using var output = new MemoryStream();
        await process.Output.CopyToAsync(output, Ct);
        try
        {
            await process.FinishAsync();
        }
        catch (FfmpegException e) when (e.Message.Contains("soxr", StringComparison.Ordinal))
        {
            Assert.Skip("This ffmpeg was built without soxr.");
        }
        var theirs = MemoryMarshal.Cast<byte, float>(output.ToArray()).ToArray();
        var ours = Resampler.Resample(Tones.Mono(from, noise), SampleRate.FromHertz(to)).Channels[0];
        var middle = Enumerable.Range(to / 4, to);
        var difference = Tones.Rms(middle.Select(n => ours[n] - theirs[n])) / Tones.Rms(middle.Select(n => ours[n]));
        Assert.True(Tones.Decibels(difference) < -90, $"{Tones.Decibels(difference):0.0} dB");
    }

    [Theory]
    [InlineData(48_000, 1.0)]
    [InlineData(44_100, 0.05)]
    public async Task LoudnessAgreesWithEbuR128(int rate, double amplitude)
    {
        var noise = Tones.Noise(1, 10 * rate).Select((s, n) => (float)(s * amplitude * (n < 5 * rate ? 1 : 0.2))).ToArray();
        var signal = new Signal(SampleRate.FromHertz(rate), noise, [.. noise.Reverse()]);
        WaveFile.Write(folder.File("a.wav"), signal, WaveDepth.Float32);
        await using var process = Need.Ffmpeg().Start(
            ["-loglevel", "info", "-i", folder.File("a.wav"), "-af", "ebur128=framelog=verbose", "-f", "null", "-"], "Measuring", Ct);
        await process.FinishAsync();
        var theirs = Regex.Match(process.ErrorTail, @"I:\s+(-?[\d.]+) LUFS").Groups[1].Value;
        Assert.Equal(double.Parse(theirs, CultureInfo.InvariantCulture), LoudnessMeter.Integrated(signal)!.Value.Lufs, 0.1);
    }

    private static CancellationToken Ct => TestContext.Current.CancellationToken;
}
