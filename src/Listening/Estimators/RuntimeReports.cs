using System.Runtime.InteropServices;

namespace Harkbook.Listening.Estimators;

/// <summary>
/// ONNX Runtime's own builds report their use to their maker over the network, and keep a file about it in the temporary folder,
/// unless ORT_DISABLE_TELEMETRY is set before they start. Nobody's listening is anybody's business.
/// </summary>
internal static class RuntimeReports
{
    private const string Switch = "ORT_DISABLE_TELEMETRY";

    /// <summary>To be called before ONNX Runtime is first used.</summary>
    public static void Forbid()
    {
        Environment.SetEnvironmentVariable(Switch, "1");
        // On Unix .NET keeps variables to itself, and a native library sees only those of the process.
        if (!OperatingSystem.IsWindows())
            _ = SetVariable(Switch, "1", overwrite: 1);
    }

    [DllImport("libc", EntryPoint = "setenv", CharSet = CharSet.Ansi, BestFitMapping = false, ThrowOnUnmappableChar = true)]
    private static extern int SetVariable(string name, string value, int overwrite);
}
