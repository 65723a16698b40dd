using System.Globalization;
using Harkbook.Listening;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Bench.Planted;

/// <summary>Plants errors in right transcriptions, checks them, and says how many are found.</summary>
internal static class PlantedCommand
{
    public static async Task<int> RunAsync(string[] arguments)
    {
        var told = arguments.Where(a => a.StartsWith("--", StringComparison.Ordinal))
            .Select(a => a.Split('=', 2)).ToDictionary(a => a[0], a => a.ElementAtOrDefault(1) ?? "");
        string Told(string name, string usual) => told.GetValueOrDefault(name, usual);
        var (places, seed) = (int.Parse(Told("--places", "4"), CultureInfo.InvariantCulture), int.Parse(Told("--seed", "1"), CultureInfo.InvariantCulture));
        var alarms = double.Parse(Told("--alarms", "2"), CultureInfo.InvariantCulture);
        var materials = new List<Material>();
        foreach (var set in arguments.Where(a => !a.StartsWith("--", StringComparison.Ordinal)).Select(a => a.Split('=', 2)))
            materials.AddRange(await Material.ReadAsync(set[0], set[1], Told("--hearings", Path.Combine(Path.GetTempPath(), "harkbook-planted"))));
        Console.Error.WriteLine();
        var run = PlantedRun.Of(materials, places, seed);
        var groups = run.Minutes.Keys.Order(StringComparer.Ordinal).Select(g => GroupScore.Of(run, g, alarms)).ToArray();
        Console.Out.Write(PlantedTable.Write(groups));
        foreach (var row in run.Right.OrderBy(r => r.Finding.Support).Take(int.Parse(Told("--worst", "0"), CultureInfo.InvariantCulture)))
            Console.Out.WriteLine(Worst(row));
        if (told.TryGetValue("--json", out var json))
            await File.WriteAllTextAsync(json, PlantedTable.Json(groups));
        if (told.TryGetValue("--plot", out var plot))
            await File.WriteAllTextAsync(plot, SvgWriter.Write(PlantedPlot.Draw(groups, alarms), Palette.Paper, SvgText.Outlines));
        if (told.TryGetValue("--fit", out var fit))
            await File.WriteAllTextAsync(fit, Fitted(run, arguments));
        return 0;
    }

    private static string Worst(RightRow row) => string.Create(CultureInfo.InvariantCulture,
        $"{row.Finding.Support:0.000} {row.Group} {row.Name} {row.Finding.Where?.Time.Value:0.00} {row.Finding.Kind} {row.Finding.Claim}; {row.Finding.Heard}");

    private static string Fitted(PlantedRun run, string[] arguments)
    {
        var shown = arguments.Where(a => !a.StartsWith("--hearings", StringComparison.Ordinal) && !a.StartsWith("--fit", StringComparison.Ordinal))
            .Select(a => a.StartsWith("--", StringComparison.Ordinal) ? a : $"{a.Split('=')[0]}={Path.GetFileName(a.Split('=')[^1])}");
        return new CalibrationFit(run).Write($"dotnet run -c Release --project bench -- planted {string.Join(' ', shown)} --fit=models/check.json",
            DateOnly.FromDateTime(DateTime.UtcNow));
    }
}
