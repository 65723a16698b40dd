using System.CommandLine;
using System.Runtime.InteropServices;
using Harkbook.App.Commands;

namespace Harkbook.App;

internal static class Program
{
    private static async Task<int> Main(string[] args)
    {
        var root = new RootCommand("Harkbook listens to a recording, proposes what is played on it, checks what you claim, and draws and publishes the lesson.")
        {
            DemoCommand.Create(),
            StartCommand.Create(),
            ListenCommand.Create(),
            CheckCommand.Create(),
            AuditionCommand.Create(),
            PublishCommand.Create(),
            ShapesCommand.Create(),
            NameCommand.Create(),
            HarpsCommand.Create(),
            EvalCommand.Create(),
        };
        var parsed = root.Parse(args);
        if (parsed.Errors.Count > 0 || UsageReport.MistakenOption(parsed) is not null)
        {
            await Console.Error.WriteLineAsync(UsageReport.Write(parsed));
            return Failure.BadUsage;
        }
        var settings = new InvocationConfiguration
        {
            EnableDefaultExceptionHandler = false,
            // A second is enough to kill a child process and delete a half-written file.
            ProcessTerminationTimeout = TimeSpan.FromSeconds(5),
        };
        try
        {
            // A terminal that is closed asks for an end as Ctrl-C does.
            using var closing = new CancellationTokenSource();
            using var hangup = PosixSignalRegistration.Create(PosixSignal.SIGHUP, signal =>
            {
                signal.Cancel = true;
                closing.Cancel();
            });
            return await parsed.InvokeAsync(settings, closing.Token);
        }
        catch (Exception e) when (Failure.Of(e) is { } failure)
        {
            await Console.Error.WriteLineAsync("harkbook: " + failure.Message);
            return failure.ExitCode;
        }
    }
}
