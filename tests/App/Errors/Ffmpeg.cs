using System.Diagnostics;

namespace Harkbook.App.Tests.Errors;

internal static class Ffmpeg
{
    public static bool IsHere => Audio.Recordings.Conversion.Ffmpeg.Find() is not null;

    /// <summary>Runs ffmpeg in a scene's folder to make a file for a test.</summary>
    public static void Make(Scene scene, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo("ffmpeg", ["-v", "error", "-nostdin", "-y", .. arguments]) { WorkingDirectory = scene.Root })!;
        process.WaitForExit();
        Assert.Equal(0, process.ExitCode);
    }
}
