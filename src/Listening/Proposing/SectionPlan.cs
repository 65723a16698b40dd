using System.Collections.Immutable;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Proposing;

/// <summary>A section's name and bars, by index.</summary>
internal sealed record PlannedSection(string Name, int FirstBar, int EndBar, Standing Standing);

/// <summary>Puts heard sections on bars. Repeats are told apart by number: "A 1", "B 1", "A 2".</summary>
internal static class SectionPlan
{
    public static ImmutableArray<PlannedSection> Of(ImmutableArray<HeardSection> heard, BeatAxis line)
    {
        var starts = new SortedDictionary<int, HeardSection?>();
        foreach (var section in heard)
            starts[NearestBar(section.Start.Value, line)] = section;
        if (line.Bars.IsEmpty)
            return [];
        Cover(starts);
        var counts = new Dictionary<string, int>();
        var firsts = starts.Keys.Where(bar => bar < line.Bars.Length).ToList();
        return [.. firsts.Select((bar, i) => Planned(starts[bar], bar, i + 1 < firsts.Count ? firsts[i + 1] : line.Bars.Length, counts))];
    }

    /// <summary>The first section takes in the bars before it; without any, the song is one section.</summary>
    private static void Cover(SortedDictionary<int, HeardSection?> starts)
    {
        if (starts.Count == 0)
            starts[0] = null;
        if (starts.First() is { Key: > 0 } first && starts.Remove(first.Key))
            starts[0] = first.Value;
    }

    private static PlannedSection Planned(HeardSection? heard, int first, int end, Dictionary<string, int> counts)
    {
        var label = heard is null || string.IsNullOrWhiteSpace(heard.Label) ? "A" : heard.Label.Trim();
        counts[label] = counts.GetValueOrDefault(label) + 1;
        return new($"{label} {counts[label]}", first, end, heard is null ? Standing.Heard(0) : Standing.HeardToThePercent(heard.Confidence));
    }

    public static int NearestBar(double time, BeatAxis line)
    {
        var place = line.Bars.IsEmpty ? 0 : line.PlaceOf(time);
        return Enumerable.Range(0, line.Bars.Length + 1).MinBy(i => Math.Abs((i < line.Bars.Length ? line.Bars[i].FirstBeat : line.Times.Length - 1) - place));
    }
}
