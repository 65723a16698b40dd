using System.Globalization;

namespace Harkbook.Bench.Planted;

/// <summary>Plants errors in right transcriptions, checks them, and says how many are found.</summary>
internal static class PlantedCommand
{
    public static async Task<int> RunAsync(string[] arguments)
    {
        var told = arguments.Where(a => a.StartsWith("--", StringComparison.Ordinal)).Select(a => a.Split('=', 2)).ToDictionary(a => a[0], a => a.ElementAtOrDefault(1) ?? "");
        string Told(string name, string usual) => told.GetValueOrDefault(name, usual);
        var (places, seed) = (int.Parse(Told("--places", "4"), CultureInfo.InvariantCulture), int.Parse(Told("--seed", "1"), CultureInfo.InvariantCulture));
        var alarms = double.Parse(Told("--alarms", "2"), CultureInfo.InvariantCulture);
        var materials = new List<Material>();
        foreach (var set in arguments.Where(a => !a.StartsWith("--", StringComparison.Ordinal)).Select(a => a.Split('=', 2)))
            materials.AddRange(await Material.ReadAsync(set[0], set[1], Told("--hearings", Path.Combine(Path.GetTempPath(), "harkbook-planted"))));
        Console.Error.WriteLine();
        var run = PlantedRun.Of(materials, places, seed);
        var groups = run.Minutes.Keys.Order(StringComparer.Ordinal).Select(g => GroupScore.Of(run, g, alarms)).ToArray();
        Console.Out.Write(PlantedTable.Write(groups, alarms));
        if (told.TryGetValue("--json", out var json))
            await File.WriteAllTextAsync(json, PlantedTable.Json(groups));
        return 0;
    }
}
