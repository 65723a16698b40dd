using System.CommandLine;

namespace Harkbook.App.Choices;

/// <summary>Arguments that several commands take.</summary>
internal static class Arguments
{
    public static Argument<string> Recording() =>
        new("recording") { Description = "A sound or video file: WAV, AIFF; with ffmpeg also MP3, FLAC, Ogg, Opus, M4A, MP4 …" };

    public static Argument<string> Song() =>
        new("song") { Description = "A song file (.hark) or the folder that holds it" };
}
