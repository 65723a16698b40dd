using System.CommandLine;
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
        if (parsed.Errors.Count > 0)
            return Usage(parsed);
        var settings = new InvocationConfiguration
        {
            EnableDefaultExceptionHandler = false,
            // A second is enough to kill a child process and delete a half-written file.
            ProcessTerminationTimeout = TimeSpan.FromSeconds(5),
        };
        try
        {
            return await parsed.InvokeAsync(settings);
        }
        catch (Exception e) when (Failure.Of(e) is { } failure)
        {
            await Console.Error.WriteLineAsync("harkbook: " + failure.Message);
            return failure.ExitCode;
        }
    }

    private static int Usage(ParseResult parsed)
    {
        foreach (var error in parsed.Errors)
            Console.Error.WriteLine("harkbook: " + error.Message);
        Console.Error.WriteLine($"Try: harkbook {parsed.CommandResult.Command.Name switch { "Harkbook.App" => "", var name => name + " " }}--help");
        return Failure.BadUsage;
    }
}
