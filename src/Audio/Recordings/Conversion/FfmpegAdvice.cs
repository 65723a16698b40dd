using System.Text.RegularExpressions;

namespace Harkbook.Audio.Recordings.Conversion;

/// <summary>What to do about what ffmpeg said.</summary>
internal static partial class FfmpegAdvice
{
    private static readonly (string Said, string Advice)[] known =
    [
        ("No space left on device", "the disk is full. Free some space and try again; nothing half-written was left."),
        ("File too large", "the file grows larger than the disk or your quota allows. Choose another disk; nothing half-written was left."),
        ("Permission denied", "no permission to read or write the file. Change its permissions, or choose another folder."),
        ("Unknown encoder", "this ffmpeg was built without the encoder that is needed. Install the full ffmpeg of your system."),
        ("Unrecognized option", "this ffmpeg is too old. Install ffmpeg 5 or newer."),
    ];

    public static string For(string errorTail) =>
        known.FirstOrDefault(k => errorTail.Contains(k.Said, StringComparison.Ordinal)).Advice
        ?? (errorTail.Length == 0 ? "ffmpeg stopped without saying why." : $"ffmpeg said: {LastLine(errorTail)}");

    /// <summary>The last line that says something, without the part of ffmpeg that said it.</summary>
    public static string LastLine(string errorTail) =>
        Speaker().Replace(errorTail.Split('\n')
            .LastOrDefault(line => line.Trim().Length > 0 && !line.Contains("Last message repeated", StringComparison.Ordinal)) ?? "", "").Trim();

    /// <summary>"[mp3 @ 0x558e3b6ff1c0] ".</summary>
    [GeneratedRegex(@"^\[[^\]]*\] *")]
    private static partial Regex Speaker();
}
