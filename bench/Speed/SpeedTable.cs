using System.Globalization;
using System.Runtime.InteropServices;

namespace Harkbook.Bench.Speed;

/// <summary>Prints measurements of speed as Markdown, with what they depend on.</summary>
internal static class SpeedTable
{
    public static async Task<int> WriteAsync(string path, TextWriter output)
    {
        CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
        output.WriteLine($"{RuntimeInformation.FrameworkDescription}, {RuntimeInformation.RuntimeIdentifier}, {Environment.ProcessorCount} cores{Load()}. Times are processor time, all threads together.\n");
        Table(output, "", "times as fast as the first", TransformSpeed.Measure());
        Table(output, Path.GetFileName(path), "times the recording's own speed", await ListeningSpeed.MeasureAsync(path));
        return 0;
    }

    public static async Task<int> WritePublishingAsync(string song, TextWriter output)
    {
        CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
        output.WriteLine($"{RuntimeInformation.FrameworkDescription}, {RuntimeInformation.RuntimeIdentifier}, {Environment.ProcessorCount} cores{Load()}. Times are by the wall clock.\n");
        Table(output, Path.GetFileName(song), "times as fast as the first", await PublishingSpeed.MeasureAsync(song));
        return 0;
    }

    private static void Table(TextWriter output, string what, string ratio, IEnumerable<Row> rows)
    {
        output.WriteLine($"| {what} | | {ratio} |\n|---|---|---|");
        foreach (var row in rows)
            output.WriteLine($"| {row.What} | {row.Result} | {(row.Ratio is { } r ? r.ToString(r < 10 ? "0.00" : "0") : "")} |");
        output.WriteLine();
    }

    private static string Load() =>
        File.Exists("/proc/loadavg") ? $", {File.ReadAllText("/proc/loadavg").Split(' ')[0]} processes busy in the last minute" : "";
}
