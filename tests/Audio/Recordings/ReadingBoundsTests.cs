using System.Diagnostics;
using Harkbook.Audio.Recordings.Conversion;

namespace Harkbook.Audio.Tests.Recordings;

/// <summary>A process that reads a stranger's file runs in bounds; which they are, the shell says (POSIX ulimit: −v in KiB, −t in seconds).</summary>
public class ReadingBoundsTests
{
    [Fact]
    public async Task AReaderHasBoundedMemoryAndTime()
    {
        Assert.SkipUnless(File.Exists("/usr/bin/prlimit"), "util-linux' prlimit isn't here, which holds the bounds.");
        var (program, arguments) = ReadingBounds.Around("/bin/sh", ["-c", "ulimit -v; ulimit -S -t"]);
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true })!;
        var said = await process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        Assert.Equal($"{4 * 1024 * 1024}\n{30 * 60}\n", said);
    }
}
