using System.Globalization;
using System.Text;
using System.Text.Json;

namespace Harkbook.Bench.Planted;

/// <summary>What planting shows, as a markdown table and for machines.</summary>
internal static class PlantedTable
{
    public static string Write(IReadOnlyList<GroupScore> groups, double alarmsAMinute)
    {
        var text = new StringBuilder();
        foreach (var group in groups)
        {
            text.Append(CultureInfo.InvariantCulture, $"\n{group.Group}, {group.Minutes:0.0} minutes\n\n| error | planted | found at {alarmsAMinute:0.#} false alarms a minute | by the check's own verdicts | area under the curve | first rival is the truth |\n|---|---|---|---|---|---|\n");
            foreach (var kind in group.Kinds.OrderBy(k => k.Kind, StringComparer.Ordinal))
                text.Append(CultureInfo.InvariantCulture, $"| {kind.Kind} | {kind.Count} | {Percent(kind.Found)} | {Percent(kind.FoundAsShipped)} | {kind.Area:.000} | {(kind.Named is { } n ? Percent(n) : "")} |\n");
            text.Append(CultureInfo.InvariantCulture, $"| **mean of kinds** | {group.Kinds.Sum(k => k.Count)} | **{Percent(group.Found)}** | {Percent(group.FoundAsShipped)} with {group.AlarmsAsShipped:0.0} false alarms a minute | {group.Area:.000} | {(group.Named is { } named ? Percent(named) : "")} |\n");
        }
        return text.ToString();
    }

    public static string Json(IReadOnlyList<GroupScore> groups) => JsonSerializer.Serialize(groups, new JsonSerializerOptions(JsonSerializerDefaults.Web) { WriteIndented = true });

    private static string Percent(double share) => string.Create(CultureInfo.InvariantCulture, $"{share * 100:0}%");
}
