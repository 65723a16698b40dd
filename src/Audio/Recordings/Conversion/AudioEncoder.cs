using System.Buffers.Binary;
using Harkbook.Audio.Recordings.Formats;
using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Recordings.Conversion;

/// <summary>Writes compressed sound files through ffmpeg: the whole file or nothing. The same signal gives the same bytes with the same ffmpeg.</summary>
public static class AudioEncoder
{
    private const int BlockFrames = 1 << 14;

    /// <summary>The rates that MPEG-1, MPEG-2 (ISO/IEC 11172-3, 13818-3) and AAC share, up to 48 kHz.</summary>
    private static readonly int[] mpegRates = [8000, 11_025, 12_000, 16_000, 22_050, 24_000, 32_000, 44_100, 48_000];

    /// <summary>Encodes a sound. A rate that the format can't hold is brought to the next one that it can.</summary>
    /// <exception cref="FfmpegException">ffmpeg is missing or failed.</exception>
    /// <exception cref="UnwritableFileException">The file can't be written.</exception>
    public static Task WriteAsync(string path, ISound sound, AudioFormat format, CancellationToken cancellation = default)
    {
        var ffmpeg = Ffmpeg.Required(Purpose(path));
        var ready = sound.At(RateFor(sound.Rate, format));
        return AtomicFile.WriteByPathAsync(path, (temporary, ct) => EncodeAsync(ffmpeg.Start(Arguments(temporary, ready, format), Purpose(path), ct),
            ready), cancellation);
    }

    /// <summary>A format by a file name's ending: .m4a, .mp3, .flac, .opus or .ogg; null for others.</summary>
    public static AudioFormat? FormatOf(string path) => Path.GetExtension(path).ToLowerInvariant() switch
    {
        ".m4a" or ".aac" or ".mp4" => AudioFormat.Aac,
        ".mp3" => AudioFormat.Mp3,
        ".flac" => AudioFormat.Flac,
        ".opus" or ".ogg" => AudioFormat.Opus,
        _ => null,
    };

    private static string Purpose(string path) => $"Writing {path}";

    private static async Task EncodeAsync(FfmpegProcess started, ISound sound)
    {
        await using var process = started;
        var bytes = new byte[BlockFrames * sound.ChannelCount * sizeof(float)];
        for (var start = 0; start < sound.Length; start += BlockFrames)
        {
            var filled = Interleave(sound.Cut(start, Math.Min(BlockFrames, sound.Length - start)), bytes);
            await process.WriteAsync(bytes.AsMemory(0, filled));
        }
        await process.FinishAsync();
    }

    private static string[] Arguments(string temporary, ISound signal, AudioFormat format) =>
    [
        "-y", "-f", "f32le", "-ar", $"{signal.Rate.Hertz}", "-ac", $"{signal.ChannelCount}", "-i", "pipe:0",
        "-map_metadata", "-1", "-fflags", "+bitexact", "-flags:a", "+bitexact", .. Coding(format), Ffmpeg.FileArgument(temporary),
    ];

    private static string[] Coding(AudioFormat format) => format switch
    {
        AudioFormat.Aac => ["-c:a", "aac", "-b:a", "192k", "-movflags", "+faststart", "-f", "ipod"],
        AudioFormat.Mp3 => ["-c:a", "libmp3lame", "-q:a", "2", "-f", "mp3"],
        AudioFormat.Flac => ["-c:a", "flac", "-sample_fmt", "s32", "-bits_per_raw_sample", "24", "-f", "flac"],
        AudioFormat.Opus => ["-c:a", "libopus", "-b:a", "128k", "-f", "ogg"],
        _ => throw new ArgumentOutOfRangeException(nameof(format), format, "No such sound format."),
    };

    private static SampleRate RateFor(SampleRate rate, AudioFormat format) => format switch
    {
        AudioFormat.Opus => SampleRate.FromHertz(48_000),
        AudioFormat.Flac => rate,
        _ => SampleRate.FromHertz(mpegRates.FirstOrDefault(r => r >= rate.Hertz, 48_000)),
    };

    private static int Interleave(Signal signal, byte[] bytes)
    {
        var at = 0;
        for (var frame = 0; frame < signal.Length; frame++)
        {
            foreach (var channel in signal.Channels)
            {
                BinaryPrimitives.WriteSingleLittleEndian(bytes.AsSpan(at), channel[frame]);
                at += sizeof(float);
            }
        }
        return at;
    }
}
