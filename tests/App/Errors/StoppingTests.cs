using System.Diagnostics;
using System.Runtime.InteropServices;

namespace Harkbook.App.Tests.Errors;

/// <summary>Ctrl-C in the middle: the program and what it started end at once, say so, and leave nothing half-written.</summary>
public class StoppingTests
{
    internal const string Stopped = "you stop the program";

    private const int Interrupt = 2;

    private static readonly TimeSpan patience = TimeSpan.FromMinutes(2);

    [Theory]
    [InlineData("reading the recording", "listen", "take.wav", "--jams", "new/a.jams")]
    [InlineData("hearing notes", "listen", "take.wav")]
    [InlineData("following the beat", "start", "take.wav", "--into", "new/song2")]
    [InlineData("lies outside", "audition", "song", "--to", "new/a.wav")]
    [InlineData("making the play-along video", "publish", "song", "--only", "video", "--into", "new/lesson")]
    [InlineData("Recording: ", "demo", "--into", "new/demo")]
    public async Task StoppedInTheMiddle(string at, params string[] arguments)
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Signals are sent here as Linux's terminals do.");
        Assert.SkipWhen(arguments[0] == "publish" && !Ffmpeg.IsHere, "ffmpeg isn't installed here.");
        using var scene = new Scene();
        scene.Take(150).Song(60);
        var before = scene.Contents;

        var ran = await StopAsync(scene, at, arguments);

        var line = ErrorGuide.Line(Stopped);
        Assert.True(ran.ExitCode == line.ExitCode, $"The guide says {line.ExitCode}, the program {ran.ExitCode}: {ran.Error}");
        Assert.True(line.Tells(Assert.Single(ran.Complaints)), ran.Error);
        Assert.Equal(before, scene.Contents);
        Assert.Empty(ProcessesOf(scene));
    }

    /// <summary>Runs a command in a process group of its own and interrupts the whole group, as a terminal does, once a text is said.</summary>
    private static async Task<Ran> StopAsync(Scene scene, string at, string[] arguments)
    {
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        limit.CancelAfter(patience);
        using var process = Process.Start(Launch.Start(scene, ["setsid", "env", "--default-signal=INT"], arguments))!;
        var (output, error) = (new Listening(process.StandardOutput, at), new Listening(process.StandardError, at));
        try
        {
            await Task.WhenAny(output.Said, error.Said, process.WaitForExitAsync(limit.Token));
            _ = Kill(-process.Id, Interrupt);
            await process.WaitForExitAsync(limit.Token);
            return new(process.ExitCode, await output.WholeText, await error.WholeText);
        }
        finally
        {
            if (!process.HasExited)
                process.Kill(entireProcessTree: true);
        }
    }

    /// <summary>Running programs whose command line names a file of the scene.</summary>
    private static string[] ProcessesOf(Scene scene) =>
        [.. Directory.GetDirectories("/proc").Where(p => int.TryParse(Path.GetFileName(p), out _)).Select(CommandLine)
            .Where(c => c.Contains(scene.Root, StringComparison.Ordinal))];

    private static string CommandLine(string process)
    {
        try
        {
            return File.ReadAllText(Path.Combine(process, "cmdline")).Replace('\0', ' ');
        }
        catch (IOException)
        {
            return "";
        }
    }

    [DllImport("libc", EntryPoint = "kill", SetLastError = true)]
    private static extern int Kill(int process, int signal);

    /// <summary>Reads a stream to its end and tells when a text was in it.</summary>
    private sealed class Listening
    {
        private readonly TaskCompletionSource said = new(TaskCreationOptions.RunContinuationsAsynchronously);

        public Listening(StreamReader reader, string text) => WholeText = ReadAsync(reader, text);

        public Task Said => said.Task;

        public Task<string> WholeText { get; }

        private async Task<string> ReadAsync(StreamReader reader, string text)
        {
            var whole = new System.Text.StringBuilder();
            while (await reader.ReadLineAsync() is { } line)
            {
                whole.Append(line).Append('\n');
                if (line.Contains(text, StringComparison.Ordinal))
                    said.TrySetResult();
            }
            return whole.ToString();
        }
    }
}
