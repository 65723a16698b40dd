using System.CommandLine;
using Harkbook.App.Commands;
using Harkbook.App.Reports;

namespace Harkbook.App;

internal static class Program
{
    private static async Task<int> Main(string[] args)
    {
        using var signals = new StopSignals();
        var root = new RootCommand("Harkbook listens to a recording, proposes what is played on it, checks what you claim, and draws and publishes the lesson.")
        {
            DemoCommand.Create(),
            OpenCommand.Create(),
            StartCommand.Create(),
            ListenCommand.Create(),
            CheckCommand.Create(),
            RebarCommand.Create(),
            AuditionCommand.Create(),
            TapsCommand.Create(),
            ExerciseCommand.Create(),
            ExplainCommand.Create(),
            PublishCommand.Create(),
            ShapesCommand.Create(),
            NamesCommand.Create(),
            NameCommand.Create(),
            TogetherCommand.Create(),
            HarpsCommand.Create(),
            HolesCommand.Create(),
            WhistlesCommand.Create(),
            TuningsCommand.Create(),
            RetuneCommand.Create(),
            SetlistCommand.Create(),
            SongbookCommand.Create(),
            EvalCommand.Create(),
        };
        var parsed = root.Parse(args);
        if (parsed.Errors.Count > 0 || UsageReport.MistakenOption(parsed) is not null)
        {
            await Console.Error.WriteLineAsync(UsageReport.Write(parsed));
            return Failure.BadUsage;
        }
        using var help = new StringWriter();
        var settings = new InvocationConfiguration
        {
            EnableDefaultExceptionHandler = false,
            // The library would listen for Ctrl-C only once a command waits for the first time.
            ProcessTerminationTimeout = null,
            Output = help,
        };
        try
        {
            var code = await parsed.InvokeAsync(settings, signals.Token);
            // The library names the file that runs; a user's command is harkbook.
            await Console.Out.WriteAsync(help.ToString().Replace(root.Name, "harkbook", StringComparison.Ordinal));
            return code;
        }
        catch (Exception e) when (Failure.Of(e) is { } failure)
        {
            await Console.Error.WriteLineAsync("harkbook: " + failure.Message);
            return failure.ExitCode;
        }
    }
}
