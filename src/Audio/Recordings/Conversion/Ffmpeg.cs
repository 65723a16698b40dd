namespace Harkbook.Audio.Recordings.Conversion;

/// <summary>The ffmpeg and ffprobe programs of this computer, which decode and encode compressed sound and video.</summary>
public sealed class Ffmpeg
{
    private const string Install =
        "Install it: Debian or Ubuntu: sudo apt-get install ffmpeg; macOS: brew install ffmpeg; Windows: winget install Gyan.FFmpeg. Then try again in a new "
            + "terminal.";

    private Ffmpeg(string path, string probePath) => (Path, ProbePath) = (path, probePath);

    /// <summary>Where the ffmpeg program is.</summary>
    public string Path { get; }

    /// <summary>Where the ffprobe program is; every ffmpeg package brings it.</summary>
    public string ProbePath { get; }

    /// <summary>Looks for both programs in the folders of the PATH variable; null when either isn't there.</summary>
    public static Ffmpeg? Find() => FindIn(Environment.GetEnvironmentVariable("PATH") ?? "");

    /// <summary>The programs found in a list of folders written as PATH is.</summary>
    public static Ffmpeg? FindIn(string folders) =>
        (Program("ffmpeg", folders), Program("ffprobe", folders)) is ({ } path, { } probe) ? new(path, probe) : null;

    /// <summary>Looks for both programs and throws, with how to install them, when they aren't there.</summary>
    /// <param name="purpose">What they are needed for, as the start of a sentence: "Writing MP3".</param>
    /// <exception cref="FfmpegException">Not installed.</exception>
    public static Ffmpeg Required(string purpose) => Find() ?? throw new FfmpegException(MissingFor(purpose));

    /// <summary>Starts ffmpeg. Paths among the arguments are best made safe with <see cref="FileArgument"/>.</summary>
    /// <param name="arguments">Passed on as they are, without a shell; -hide_banner, -nostdin and -loglevel come before them.</param>
    /// <param name="purpose">What is being done, for messages: "Making the video".</param>
    /// <param name="cancellation">Kills the process.</param>
    public FfmpegProcess Start(IEnumerable<string> arguments, string purpose, CancellationToken cancellation) =>
        FfmpegProcess.Start(Path, ["-hide_banner", "-nostdin", "-loglevel", "error", .. arguments], purpose, cancellation);

    /// <summary>Starts ffmpeg to read a file that may be anyone's, in bounded memory and time.</summary>
    internal FfmpegProcess StartReading(IEnumerable<string> arguments, string purpose, CancellationToken cancellation) =>
        StartBounded(Path, ["-hide_banner", "-nostdin", "-loglevel", "error", .. arguments], purpose, cancellation);

    /// <summary>Starts ffprobe, likewise.</summary>
    internal FfmpegProcess StartProbe(IEnumerable<string> arguments, string purpose, CancellationToken cancellation) =>
        StartBounded(ProbePath, ["-hide_banner", "-loglevel", "warning", .. arguments], purpose, cancellation);

    /// <summary>A path as an argument that ffmpeg can't mistake for an option, an address or a protocol.</summary>
    public static string FileArgument(string path) => "file:" + System.IO.Path.GetFullPath(path);

    internal static string MissingFor(string purpose) => $"{purpose} needs ffmpeg, which isn't installed. {Install}";

    private static FfmpegProcess StartBounded(string program, IEnumerable<string> arguments, string purpose, CancellationToken cancellation)
    {
        var bounded = ReadingBounds.Around(program, arguments);
        return FfmpegProcess.Start(bounded.Program, bounded.Arguments, purpose, cancellation);
    }

    private static string? Program(string name, string folders) =>
        folders.Split(System.IO.Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries)
            .Select(folder => System.IO.Path.Combine(folder, OperatingSystem.IsWindows() ? name + ".exe" : name))
            .FirstOrDefault(File.Exists);
}
