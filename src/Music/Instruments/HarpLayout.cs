using System.Collections.Immutable;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Instruments;

/// <summary>Which pitch each hole of a harmonica in C sounds, blown and drawn; index 0 is hole 1. Read from data/harps.tsv.</summary>
public sealed record HarpLayout(string Name, ImmutableArray<Pitch> Blow, ImmutableArray<Pitch> Draw, string Source)
{
    public int Holes => Blow.Length;

    public static ImmutableArray<HarpLayout> All { get; } = ReadAll();

    public static HarpLayout Richter { get; } = All.First(l => l.Name == "richter");

    /// <summary>The layout of a name; null when the table has none.</summary>
    public static HarpLayout? Find(string name) => All.FirstOrDefault(l => l.Name == name);

    private static ImmutableArray<HarpLayout> ReadAll() =>
        [.. PublishedTable.Rows("harps.tsv").GroupBy(r => r[0]).Select(layout => new HarpLayout(
            layout.Key, Reeds(layout, "blow"), Reeds(layout, "draw"), layout.First()[3]))];

    private static ImmutableArray<Pitch> Reeds(IEnumerable<string[]> rows, string breath) =>
        Tuning.Parse(rows.Single(r => r[1] == breath)[2]).Strings;
}
