using System.Diagnostics;

namespace Harkbook.App.Tests.Errors;

/// <summary>How a run of the program ended and what it said.</summary>
internal sealed record Ran(int ExitCode, string Output, string Error)
{
    /// <summary>The lines that the program says of a failure, without progress and diagnostics.</summary>
    public string[] Complaints => [.. Error.Split('\n').Where(l => l.StartsWith("harkbook: ", StringComparison.Ordinal))
        .Select(l => l["harkbook: ".Length..].Trim())];
}

/// <summary>Starts the built program as a shell would.</summary>
internal static class Launch
{
    private static readonly string Program = Path.Combine(AppContext.BaseDirectory, "Harkbook.App.dll");

    /// <summary>The .NET host that runs these tests: three folders above the runtime's own.</summary>
    private static readonly string Host = Path.GetFullPath(Path.Combine(
        Path.GetDirectoryName(typeof(object).Assembly.Location)!, "..", "..", "..", OperatingSystem.IsWindows() ? "dotnet.exe" : "dotnet"));

    public static Task<Ran> RunAsync(Scene scene, params string[] arguments) => RunAsync(Start(scene, [], arguments));

    /// <param name="before">A command that runs the program, such as a shell with limits.</param>
    public static Task<Ran> RunAsync(Scene scene, string[] before, string[] arguments) => RunAsync(Start(scene, before, arguments));

    public static ProcessStartInfo Start(Scene scene, string[] before, string[] arguments)
    {
        string[] command = [.. before, Host, Program, .. arguments];
        var start = new ProcessStartInfo(command[0], command[1..])
        {
            WorkingDirectory = scene.Root,
            RedirectStandardError = true,
            RedirectStandardOutput = true,
        };
        start.Environment["XDG_CACHE_HOME"] = scene.Cache;
        start.Environment["TMPDIR"] = scene.Temporary;
        // Without these the runtime keeps files of its own in the temporary folder, and maps code through a file that no limit may stop.
        start.Environment["DOTNET_EnableDiagnostics"] = "0";
        start.Environment["DOTNET_EnableWriteXorExecute"] = "0";
        if (scene.WithoutFfmpeg)
            start.Environment["PATH"] = scene.Temporary;
        return start;
    }

    public static async Task<Ran> RunAsync(ProcessStartInfo start)
    {
        using var process = Process.Start(start)!;
        var (output, error) = (process.StandardOutput.ReadToEndAsync(), process.StandardError.ReadToEndAsync());
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        return new(process.ExitCode, await output, await error);
    }
}
