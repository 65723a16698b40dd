using Harkbook.App.Messages;
using Harkbook.Audio.Recordings;
using Harkbook.Jobs.Files;
using Harkbook.Listening.Interchange;

namespace Harkbook.App;

/// <summary>How the program ends when something goes wrong: one message and an exit code. docs/errors.md lists them all.</summary>
internal sealed record Failure(string Message, int ExitCode)
{
    /// <summary>The check found contradicted claims.</summary>
    public const int Contradicted = 1;

    /// <summary>The command line makes no sense.</summary>
    public const int BadUsage = 2;

    /// <summary>A file, a folder or the disk is at fault.</summary>
    public const int BadInput = 3;

    /// <summary>Ctrl-C, as shells count it (128 + SIGINT).</summary>
    public const int Stopped = 130;

    /// <summary>The failure that an exception stands for; null for a mistake in the program, which should crash loudly.</summary>
    public static Failure? Of(Exception exception) => exception switch
    {
        OperationCanceledException => new("stopped. No song was touched and nothing half-written was left; files that were finished before stay.", Stopped),
        UsageException => new(exception.Message, BadUsage),
        RecordingException or AnnotationException or UserException => new(exception.Message, BadInput),
        UnauthorizedAccessException => new($"{exception.Message} Check your rights to the file or folder.", BadInput),
        IOException e when AtomicFile.IsDiskFull(e) =>
            new("the disk is full; nothing was left half-written. Free some space and run the command again.", BadInput),
        IOException => new(exception.Message, BadInput),
        AggregateException { InnerExceptions: [var only] } => Of(only),
        _ => null,
    };
}
