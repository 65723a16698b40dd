using System.Diagnostics;

namespace Harkbook.Audio.Recordings.Conversion;

/// <summary>
/// One run of ffmpeg: write to it, read from it, then wait for it with <see cref="FinishAsync"/>.
/// Cancelling, or disposing of it before it ended, kills it.
/// </summary>
public sealed class FfmpegProcess : IAsyncDisposable
{
    /// <summary>How ffmpeg ends when it is asked to, and how a program without its own way does (128 + SIGINT).</summary>
    private const int InterruptedFfmpeg = 255, InterruptedProbe = 130;

    /// <summary>ffmpeg 5.1 ends with 0 when only the end of a file couldn't be written, on a disk that fills up in the last moment.</summary>
    private static readonly string[] lostEnd = ["Error writing trailer", "Error closing file"];

    private readonly Process process;
    private readonly string purpose;
    private readonly CancellationToken cancellation;
    private readonly CancellationTokenRegistration killing;
    private readonly StandardErrorTail errors = new();
    private readonly Task reading;

    private FfmpegProcess(Process process, string purpose, CancellationToken cancellation)
    {
        (this.process, this.purpose, this.cancellation) = (process, purpose, cancellation);
        reading = errors.ReadAsync(process.StandardError);
        killing = cancellation.Register(Kill);
    }

    /// <summary>The process's standard output. Read it to the end when the arguments make ffmpeg write there.</summary>
    public Stream Output => process.StandardOutput.BaseStream;

    /// <summary>The last lines that the process wrote to its standard error so far.</summary>
    public string ErrorTail => errors.Text;

    internal int Id => process.Id;

    internal static FfmpegProcess Start(string program, IEnumerable<string> arguments, string purpose, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        var start = new ProcessStartInfo(program, arguments)
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            UseShellExecute = false,
            CreateNoWindow = true,
        };
        try
        {
            return new(Process.Start(start)!, purpose, cancellation);
        }
        catch (System.ComponentModel.Win32Exception e)
        {
            throw new FfmpegException($"{purpose} failed: {program} can't be started ({e.Message}). Install ffmpeg again.", e);
        }
    }

    /// <summary>Sends bytes to the process's standard input; waits while it is busy.</summary>
    /// <exception cref="FfmpegException">The process ended early; the message says why.</exception>
    public async ValueTask WriteAsync(ReadOnlyMemory<byte> bytes)
    {
        try
        {
            await process.StandardInput.BaseStream.WriteAsync(bytes, cancellation);
        }
        catch (IOException)
        {
            await EndAsync();
            throw Failure();
        }
    }

    /// <summary>Closes the process's standard input and waits for its end.</summary>
    /// <exception cref="FfmpegException">It failed; the message holds what it said last.</exception>
    public async Task FinishAsync()
    {
        await EndAsync();
        if (process.ExitCode != 0 || lostEnd.Any(words => ErrorTail.Contains(words, StringComparison.Ordinal)))
            throw Failure();
    }

    public async ValueTask DisposeAsync()
    {
        Kill();
        await process.WaitForExitAsync(CancellationToken.None);
        await reading;
        await killing.DisposeAsync();
        process.Dispose();
    }

    private async Task EndAsync()
    {
        try
        {
            process.StandardInput.Close();
        }
        catch (IOException)
        {
            // The process has closed its end already; its exit code tells the rest.
        }
        await process.WaitForExitAsync(CancellationToken.None);
        await reading;
        if (process.ExitCode is InterruptedFfmpeg or InterruptedProbe)
            await GiveCancellationTimeAsync();
        cancellation.ThrowIfCancellationRequested();
    }

    /// <summary>Ctrl-C reaches this process and its children at once, and the child may be the first to say so.</summary>
    private async Task GiveCancellationTimeAsync()
    {
        using var heard = new CancellationTokenSource(TimeSpan.FromSeconds(1));
        using var either = CancellationTokenSource.CreateLinkedTokenSource(heard.Token, cancellation);
        await Task.Delay(Timeout.Infinite, either.Token).ContinueWith(_ => { }, CancellationToken.None, TaskContinuationOptions.None, TaskScheduler.Default);
    }

    private FfmpegException Failure() => new($"{purpose} failed: {FfmpegAdvice.For(ErrorTail)}");

    private void Kill()
    {
        try
        {
            process.Kill(entireProcessTree: true);
        }
        catch (InvalidOperationException)
        {
            // It has ended by itself.
        }
    }
}
