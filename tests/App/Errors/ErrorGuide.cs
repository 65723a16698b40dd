using System.Globalization;
using System.Text.RegularExpressions;

namespace Harkbook.App.Tests.Errors;

/// <summary>A line of docs/errors.md: when it happens, what is said (… for what differs) and the exit code.</summary>
internal sealed record GuideLine(string When, string Message, int ExitCode)
{
    public bool Tells(string message) =>
        Regex.IsMatch(message, "^" + Regex.Escape(Message).Replace("…", ".*", StringComparison.Ordinal) + "$", RegexOptions.CultureInvariant);
}

/// <summary>The tables of docs/errors.md.</summary>
internal static class ErrorGuide
{
    private static readonly string[] Rows = [.. File.ReadLines(Path.Combine(Root(), "docs", "errors.md"))
        .Where(l => l.StartsWith("| ", StringComparison.Ordinal))];

    public static GuideLine[] Lines { get; } =
    [
        .. Rows.Select(Cells).Where(c => c.Length == 3 && c[2] != "code").Select(c => new GuideLine(c[0], c[1], int.Parse(c[2], CultureInfo.InvariantCulture))),
    ];

    /// <summary>The exit codes of the first table.</summary>
    public static int[] ExitCodes { get; } =
        [.. Rows.Select(Cells).Where(c => c.Length == 2 && c[0] != "exit code").Select(c => int.Parse(c[0], CultureInfo.InvariantCulture))];

    public static GuideLine Line(string when) =>
        Lines.SingleOrDefault(l => l.When == when) ?? throw new InvalidOperationException($"docs/errors.md needs one line '{when}'.");

    public static string Root()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "Harkbook.slnx")))
            folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException($"No Harkbook.slnx above {AppContext.BaseDirectory}.");
        return folder;
    }

    private static string[] Cells(string row) => [.. row.Trim('|').Split(" | ").Select(c => c.Trim(' ', '|').Trim())];
}
