using System.CommandLine;
using Harkbook.App.Messages;
using Harkbook.Audio.Isolation;
using Harkbook.Audio.Signals;

namespace Harkbook.App.Files;

/// <summary>The option --on: only a part of a recording, for the estimators or for the ear.</summary>
internal static class RecordingPart
{
    private const double Programme = -18;

    public static Option<string?> Option(string what) => new("--on") { Description = $"{what}: {SoundPart.Words}", HelpName = "PART" };

    /// <summary>Null where the option isn't given.</summary>
    public static SoundPart? Read(string? text) =>
        text is null ? null
        : SoundPart.TryParse(text, out var part) ? part
        : throw new UsageException($"--on {text}: the parts are {SoundPart.Words}.");

    /// <summary>As loud as it is within the whole recording played at about −18 LUFS, so that a faint part isn't blown up; peaks under the ceiling.</summary>
    public static Signal Levelled(Signal part, Signal whole)
    {
        if (LoudnessMeter.Integrated(part) is not { } own || LoudnessMeter.Integrated(whole) is not { } all)
            return part;
        return EvenLevel.At(part, Loudness.FromLufs(Programme + Math.Min(0, own.Lufs - all.Lufs)));
    }

    /// <summary>"side", "pan-100..-30-held": the part's name as it can stand in a file's name.</summary>
    public static string FileName(SoundPart part) => part.Text.Replace(':', '-').Replace('+', '-');
}
