using System.Globalization;
using System.Text;
using System.Text.Json;

namespace Harkbook.Bench.Planted;

/// <summary>What planting shows, as a markdown table and for machines.</summary>
internal static class PlantedTable
{
    /// <summary>
    /// A row for each kind of error, a column for each group; in it the share found at the false alarms asked for, the area under the curve, and of those
    /// found how often the first rival is the truth. Below, the means, and what the check's own verdicts give.
    /// </summary>
    public static string Write(IReadOnlyList<GroupScore> groups)
    {
        var kinds = groups.SelectMany(g => g.Kinds.Select(k => k.Kind)).Distinct().Order(StringComparer.Ordinal);
        var text = new StringBuilder();
        Row("error", groups.Select(g => string.Create(CultureInfo.InvariantCulture, $"{g.Group}, {g.Minutes:0.0} min")));
        Row("---", groups.Select(_ => "---"));
        foreach (var kind in kinds)
            Row(kind, groups.Select(g => g.Kinds.FirstOrDefault(k => k.Kind == kind) is { } score ? Cell(score) : ""));
        Row("**mean of kinds**", groups.Select(g => $"**{Percent(g.Found)}**, {Area(g.Area)}{Named(g.Named)}"));
        Row("by the check's own verdicts", groups.Select(g =>
            string.Create(CultureInfo.InvariantCulture, $"{Percent(g.FoundAsShipped)} with {g.AlarmsAsShipped:0.0} false alarms a minute")));
        return text.ToString();

        void Row(string head, IEnumerable<string> cells) => text.Append("| ").Append(head).Append(" | ").AppendJoin(" | ", cells).Append(" |\n");
    }

    public static string Json(IReadOnlyList<GroupScore> groups) =>
        JsonSerializer.Serialize(groups, new JsonSerializerOptions(JsonSerializerDefaults.Web) { WriteIndented = true });

    private static string Cell(PlantedScore score) => $"{Percent(score.Found)} of {score.Count}, {Area(score.Area)}{Named(score.Named)}";

    private static string Area(double area) => area.ToString(".000", CultureInfo.InvariantCulture);

    private static string Named(double? share) => share is { } named ? ", " + Percent(named) : "";

    private static string Percent(double share) => string.Create(CultureInfo.InvariantCulture, $"{share * 100:0}%");
}
