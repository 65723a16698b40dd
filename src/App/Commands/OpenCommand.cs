using System.CommandLine;
using System.Diagnostics;
using Harkbook.App.Making;
using Harkbook.App.Messages;
using Harkbook.Jobs.Files;
using Harkbook.Workbench;

namespace Harkbook.App.Commands;

internal static class OpenCommand
{
    public static Command Create()
    {
        var folder = new Argument<string>("songbook")
        {
            Description = "The folder that your songs lie in; without it, the folder you are in",
            DefaultValueFactory = _ => ".",
        };
        var port = new Option<int>("--port") { Description = "The port on this machine; without it, any that is free", HelpName = "NUMBER" };
        var stay = new Option<bool>("--no-browser") { Description = "Only say the address; the browser is opened by you" };
        var command = new Command("open", "Open the workbench: the songs of a folder as sheets in the browser, to listen, decide, check and publish")
        {
            folder, port, stay,
        };
        command.SetAction(async (parsed, ct) =>
        {
            var path = Path.GetFullPath(parsed.GetRequiredValue(folder));
            if (File.Exists(path))
                path = Path.GetDirectoryName(path)!;
            if (!Directory.Exists(path))
                throw new UserException($"{path}: there is no such folder. Give the folder of your songs, or make it first.");
            if (parsed.GetValue(port) is < 0 or > 65_535)
                throw new UsageException($"--port {parsed.GetValue(port)}: give a port from 1024 to 65535, or leave the option out.");
            await using var workbench = await StartAsync(new(path, parsed.GetValue(port)) { MakeInvented = InventedSong.MakeAllAsync }, ct);
            Console.Out.WriteLine($"The workbench is at {workbench.Address}");
            Console.Out.WriteLine("Only this machine reaches it, and only by this address. Ctrl-C closes it; everything is saved as you go.");
            if (!parsed.GetValue(stay))
                ShowInBrowser(workbench.Address);
            await workbench.RunAsync(ct);
            return 0;
        });
        return command;
    }

    private static async Task<WorkbenchServer> StartAsync(WorkbenchOptions options, CancellationToken ct)
    {
        try
        {
            return await WorkbenchServer.StartAsync(options, ct);
        }
        catch (Exception e) when (options.Port != 0 && e is IOException or System.Net.Sockets.SocketException)
        {
            throw new UserException($"Port {options.Port} can't be had ({e.Message.TrimEnd('.')}). Choose another with --port, or leave it out.");
        }
    }

    /// <summary>Where no browser can be opened, the address stands in the terminal.</summary>
    private static void ShowInBrowser(Uri address)
    {
        try
        {
            var opener = OperatingSystem.IsWindows() ? new ProcessStartInfo(address.AbsoluteUri) { UseShellExecute = true }
                : new ProcessStartInfo(OperatingSystem.IsMacOS() ? "open" : "xdg-open", [address.AbsoluteUri])
                {
                    RedirectStandardError = true,
                    RedirectStandardOutput = true,
                };
            using var process = Process.Start(opener);
        }
        catch (Exception e) when (e is System.ComponentModel.Win32Exception or InvalidOperationException)
        {
            Console.Error.WriteLine("harkbook: no browser could be opened from here; open the address above in yours.");
        }
    }
}
