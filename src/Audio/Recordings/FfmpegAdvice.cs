namespace Harkbook.Audio.Recordings;

/// <summary>What to do about what ffmpeg said.</summary>
internal static class FfmpegAdvice
{
    private static readonly (string Said, string Advice)[] known =
    [
        ("No space left on device", "the disk is full. Free some space and try again."),
        ("Permission denied", "no permission to read or write the file. Change its permissions, or choose another folder."),
        ("Unknown encoder", "this ffmpeg was built without the encoder that is needed. Install the full ffmpeg of your system."),
        ("Unrecognized option", "this ffmpeg is too old. Install ffmpeg 5 or newer."),
    ];

    public static string For(string errorTail)
    {
        var advice = known.FirstOrDefault(k => errorTail.Contains(k.Said, StringComparison.Ordinal)).Advice;
        var said = errorTail.Length == 0 ? "ffmpeg stopped without saying why" : $"ffmpeg said: {errorTail}";
        return advice is null ? said : $"{advice} ({said})";
    }
}
