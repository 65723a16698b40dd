using System.Diagnostics;
using Harkbook.Audio.Recordings.Conversion;

namespace Harkbook.Publishing.Tests.Lessons;

/// <summary>The programs outside this project that lessons are checked with.</summary>
internal static class Programs
{
    public static void NeedFfmpeg() =>
        Assert.SkipWhen(Ffmpeg.Find() is null, "ffmpeg isn't installed here, and this test reads or makes sound and video with it.");

    /// <summary>Chromium from the PATH; a test that needs a browser says so where there is none.</summary>
    public static string? Chromium { get; } =
        (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries)
            .SelectMany(folder => new[] { "chromium", "chromium-browser", "google-chrome" }.Select(name => Path.Combine(folder, name)))
            .FirstOrDefault(File.Exists);

    public static async Task<byte[]> FfmpegAsync(params string[] arguments) =>
        await RunAsync(Ffmpeg.Find()!.Path, ["-hide_banner", "-nostdin", "-loglevel", "error", .. arguments]);

    public static async Task<byte[]> FfprobeAsync(params string[] arguments) => await RunAsync(Ffmpeg.Find()!.ProbePath, ["-loglevel", "error", .. arguments]);

    private static async Task<byte[]> RunAsync(string program, string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        var errors = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        using var output = new MemoryStream();
        await process.StandardOutput.BaseStream.CopyToAsync(output, TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.True(process.ExitCode == 0, $"{program} failed: {await errors}");
        return output.ToArray();
    }
}
