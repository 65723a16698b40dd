using System.Globalization;
using System.Text.Json;
using Harkbook.Audio.Recordings.Formats;
using Harkbook.Units;

namespace Harkbook.Audio.Recordings.Conversion;

/// <summary>What ffprobe says of the first sound stream of a file.</summary>
/// <param name="Length">Its length, or null when only decoding can tell.</param>
/// <param name="Promised">The length that decoding must reach for the file to count as whole, or null when the file gives none.</param>
internal sealed record FfmpegProbe(SampleRate Rate, int Channels, string Format, Seconds? Length, Seconds? Promised)
{
    /// <summary>Containers without an index: ffprobe knows their length from the first frame or from the bit rate, coder padding included.</summary>
    private static readonly string[] bareStreams = ["mp3", "aac", "ac3", "eac3"];

    /// <summary>Sample entries of protected sound: Apple's, ISO/IEC 14496-12's and the audio-book kind.</summary>
    private static readonly string[] protectedTags = ["drms", "enca", "aavd"];

    private static readonly TimeSpan patience = TimeSpan.FromSeconds(60);

    public static async Task<FfmpegProbe> ReadAsync(Ffmpeg ffmpeg, string path, CancellationToken cancellation)
    {
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        limit.CancelAfter(patience);
        try
        {
            return await AskAsync(ffmpeg, path, limit.Token);
        }
        catch (OperationCanceledException) when (!cancellation.IsCancellationRequested)
        {
            throw new RecordingException($"{path}: ffprobe gave no answer within a minute. Check that the disk or network folder answers.");
        }
    }

    private static async Task<FfmpegProbe> AskAsync(Ffmpeg ffmpeg, string path, CancellationToken cancellation)
    {
        await using var process = ffmpeg.StartProbe(
            ["-protocol_whitelist", "file,pipe", "-of", "json", "-show_streams", "-show_format", Ffmpeg.FileArgument(path)],
                "Looking at the file", cancellation);
        var answer = await new StreamReader(process.Output).ReadToEndAsync(cancellation);
        try
        {
            await process.FinishAsync();
        }
        catch (FfmpegException e)
        {
            throw NotReadable(path, process.ErrorTail, e);
        }
        using var json = JsonDocument.Parse(answer);
        return Understand(json.RootElement, process.ErrorTail, path);
    }

    private static FfmpegProbe Understand(JsonElement answer, string said, string path)
    {
        var streams = answer.GetProperty("streams").EnumerateArray().ToArray();
        var sound = streams.FirstOrDefault(s => Text(s, "codec_type") == "audio");
        if (sound.ValueKind == JsonValueKind.Undefined)
            throw new RecordingException($"{path}: there is no sound in this file; it holds {Held(streams)}. Name a sound file, or a video with sound.");
        if (protectedTags.Contains(Text(sound, "codec_tag_string")))
            throw Protected(path);
        if (Text(sound, "codec_name") is "" or "unknown" || !sound.TryGetProperty("channels", out var channels))
            throw new RecordingException($"{path}: the coding of the sound isn't known to this ffmpeg ({Text(sound, "codec_tag_string")}). Convert it to WAV "
                + "or FLAC with the program that made it.");
        FormatLimits.RequireChannels(channels.GetInt32(), path);
        var rate = FormatLimits.Rate(Number(sound, "sample_rate") ?? 0, path);
        var stated = Number(sound, "duration") ?? Number(answer.GetProperty("format"), "duration");
        return new(rate, channels.GetInt32(), FormatWords(sound, streams), LengthOf(answer, stated), Promise(stated, said));
    }

    private static string Held(JsonElement[] streams) =>
        streams.Length == 0 ? "nothing" : string.Join(", ", streams.Select(s => $"{Text(s, "codec_type")} ({Text(s, "codec_name")})"));

    /// <summary>What is guessed to be far too long is taken at its word, so that nobody waits for hours of sound to be counted.</summary>
    private static Seconds? LengthOf(JsonElement answer, double? length) =>
        length is { } seconds && (seconds > RecordingLength.Hopeless.Value || !bareStreams.Contains(Text(answer.GetProperty("format"), "format_name")))
            ? Seconds.FromSeconds(seconds)
            : null;

    private static Seconds? Promise(double? length, string said) =>
        length is { } seconds && !said.Contains("Estimating duration", StringComparison.Ordinal) ? Seconds.FromSeconds(seconds) : null;

    private static string FormatWords(JsonElement sound, JsonElement[] streams)
    {
        var codec = Text(sound, "codec_name");
        var name = codec switch
        {
            "vorbis" => "Ogg Vorbis",
            "opus" => "Opus",
            "wmav1" or "wmav2" or "wmapro" => "WMA",
            _ when codec.StartsWith("pcm_", StringComparison.Ordinal) => "PCM",
            _ => codec.ToUpperInvariant(),
        };
        var bits = Number(sound, "bits_per_raw_sample") is > 0 and var raw ? $", {raw}-bit" : "";
        return name + bits + (streams.Any(IsMovingPicture) ? ", from a video" : "");
    }

    private static bool IsMovingPicture(JsonElement stream) =>
        Text(stream, "codec_type") == "video"
        && !(stream.TryGetProperty("disposition", out var d) && d.TryGetProperty("attached_pic", out var cover) && cover.GetInt32() == 1);

    private static RecordingException NotReadable(string path, string said, Exception cause) => said switch
    {
        _ when said.Contains("moov atom not found", StringComparison.Ordinal) =>
            new($"{path}: the file is cut short or damaged: its table of contents, which stands at the end, is missing. Copy or download it again.", cause),
        _ when said.Contains("activation_bytes", StringComparison.Ordinal) || said.Contains("DRM", StringComparison.Ordinal) => Protected(path),
        _ => new($"{path}: this isn't a sound file that can be read. Check that the name's ending tells the truth, and that the file plays elsewhere. (ffprobe "
            + $"said: {FfmpegAdvice.LastLine(said).Replace(Ffmpeg.FileArgument(path) + ": ", "", StringComparison.Ordinal)})", cause),
    };

    private static RecordingException Protected(string path) =>
        new($"{path}: the file is copy-protected, so it can't be listened to. "
            + "Use a copy without protection, such as your own CD or a shop's DRM-free download.");

    private static string Text(JsonElement element, string name) =>
        element.TryGetProperty(name, out var value) ? value.GetString() ?? "" : "";

    private static double? Number(JsonElement element, string name) =>
        double.TryParse(Text(element, name), NumberStyles.Float, CultureInfo.InvariantCulture, out var value) ? value : null;
}
