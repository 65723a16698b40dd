using System.Collections.Immutable;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Instruments.Harmonicas;

/// <summary>
/// Which pitch each hole of a harmonica in C sounds, blown and drawn; index 0 is hole 1. Read from data/harps.tsv, whose head
/// says how to add one.
/// </summary>
public sealed record HarpLayout(string Name, ImmutableArray<Pitch> Blow, ImmutableArray<Pitch> Draw, string Source)
{
    public const string Usual = "richter";

    /// <summary>What the holes sound, blown, with the slide pressed in; empty on a harmonica without slide.</summary>
    public ImmutableArray<Pitch> BlowSlide { get; init; } = [];

    /// <summary>What they sound drawn with the slide pressed in; empty without slide.</summary>
    public ImmutableArray<Pitch> DrawSlide { get; init; } = [];

    public int Holes => Blow.Length;

    /// <summary>Whether it is a chromatic harmonica. Its reeds are valved apart, so the bends of a diatonic one aren't counted on.</summary>
    public bool HasSlide => BlowSlide.Length > 0;

    public static ImmutableArray<HarpLayout> All { get; } = [.. Layouts(PublishedTable.Rows("harps.tsv"))];

    public static HarpLayout Richter { get; } = All.First(l => l.Name == Usual);

    /// <summary>The layout of a name; null when the table has none.</summary>
    public static HarpLayout? Find(string name) => All.FirstOrDefault(l => l.Name == name);

    /// <summary>Layouts from the text of a table written as data/harps.tsv is.</summary>
    public static ImmutableArray<HarpLayout> ReadTable(string text) => [.. Layouts(PublishedTable.RowsOf(new StringReader(text)))];

    private static IEnumerable<HarpLayout> Layouts(IEnumerable<string[]> rows) =>
        rows.GroupBy(r => r[0]).Select(layout => new HarpLayout(layout.Key, Reeds(layout, "blow"), Reeds(layout, "draw"), layout.First()[3])
        {
            BlowSlide = Slid(layout, "blow-slide"),
            DrawSlide = Slid(layout, "draw-slide"),
        });

    private static ImmutableArray<Pitch> Slid(IEnumerable<string[]> rows, string reeds) =>
        rows.Any(r => r[1] == reeds) ? Reeds(rows, reeds) : [];

    private static ImmutableArray<Pitch> Reeds(IEnumerable<string[]> rows, string reeds) =>
        [.. rows.Single(r => r[1] == reeds)[2].Split(' ').Select(Pitch.Parse)];
}
