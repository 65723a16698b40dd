using System.Runtime.InteropServices;

namespace Harkbook.Audio.Recordings.Samples;

/// <summary>
/// The samples of one channel in a temporary file without a name (on Windows: one that goes with its handle), so that nothing stays
/// behind however the program ends.
/// </summary>
internal sealed class SampleFile : ISampleStore, IDisposable
{
    private readonly FileStream stream;
    private readonly string folder;

    private SampleFile(FileStream stream, string folder) => (this.stream, this.folder) = (stream, folder);

    public int Length { get; private set; }

    /// <summary>
    /// The folder for large temporary files: $TMPDIR, or /var/tmp, which isn't kept in memory as /tmp often is
    /// (Filesystem Hierarchy Standard 3.0; systemd's file-hierarchy(7)), or the system's own.
    /// </summary>
    public static string UsualFolder =>
        !OperatingSystem.IsWindows() && string.IsNullOrEmpty(Environment.GetEnvironmentVariable("TMPDIR")) && Directory.Exists("/var/tmp")
            ? "/var/tmp"
            : Path.GetTempPath();

    /// <exception cref="UnwritableFileException">The folder can't be written to.</exception>
    public static SampleFile Create(string folder)
    {
        var path = Path.Combine(folder, $"harkbook-{Guid.NewGuid():N}.samples");
        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.ReadWrite, Share = FileShare.None, BufferSize = 0 };
        if (OperatingSystem.IsWindows())
            options.Options = FileOptions.DeleteOnClose;
        else
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        try
        {
            var stream = new FileStream(path, options);
            if (!OperatingSystem.IsWindows())
                File.Delete(path);
            return new(stream, folder);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw Unwritable(folder, e);
        }
    }

    public void Add(ReadOnlySpan<float> samples)
    {
        try
        {
            RandomAccess.Write(stream.SafeFileHandle, MemoryMarshal.AsBytes(samples), (long)Length * sizeof(float));
        }
        catch (Exception e) when (e is IOException || AtomicFile.IsTooLarge(e))
        {
            throw Unwritable(folder, e);
        }
        Length += samples.Length;
    }

    /// <param name="start">All of the stretch lies within the file.</param>
    public void Read(int start, Span<float> into)
    {
        var bytes = MemoryMarshal.AsBytes(into);
        var offset = (long)start * sizeof(float);
        while (bytes.Length > 0)
        {
            var read = RandomAccess.Read(stream.SafeFileHandle, bytes, offset);
            if (read == 0)
                throw new EndOfStreamException($"The temporary file of the samples ends at {offset} bytes; something has cut it short.");
            bytes = bytes[read..];
            offset += read;
        }
    }

    public void Dispose() => stream.Dispose();

    private static string Reason(Exception cause) =>
        AtomicFile.IsDiskFull(cause) ? "the disk is full"
        : AtomicFile.IsTooLarge(cause) ? "a file may not grow so large"
        : cause.Message.TrimEnd('.');

    private static UnwritableFileException Unwritable(string folder, Exception cause) => new(
        $"{folder}: the sound's samples can't be kept here while it is worked on ({Reason(cause)}). " +
        "They take about 10 MB a minute in stereo; free some space, or set TMPDIR to a folder with more.", cause);
}
