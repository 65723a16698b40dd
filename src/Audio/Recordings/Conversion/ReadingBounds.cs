namespace Harkbook.Audio.Recordings.Conversion;

/// <summary>
/// What a process may take that reads a stranger's file: memory and processor time, held by the kernel through util-linux' prlimit. Where that isn't there
/// (it is on every Linux), only its standing still is bounded.
/// </summary>
internal static class ReadingBounds
{
    /// <summary>
    /// 4 GiB of addresses, which is far more than any sound takes; half an hour of work, for three hours of sound at most, and 10 s more to end by itself.
    /// </summary>
    public const long Bytes = 4L << 30, Seconds = 1800, Grace = 10;

    private const string Program = "/usr/bin/prlimit";

    public static (string Program, IEnumerable<string> Arguments) Around(string program, IEnumerable<string> arguments) =>
        File.Exists(Program) ? (Program, [$"--as={Bytes}", $"--cpu={Seconds}:{Seconds + Grace}", "--", program, .. arguments]) : (program, arguments);
}
