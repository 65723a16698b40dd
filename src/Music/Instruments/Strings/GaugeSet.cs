using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Instruments.Strings;

/// <summary>Strings sold together, read from data/string-sets.tsv.</summary>
/// <param name="Strings">The low side first.</param>
public sealed record GaugeSet(string Name, ImmutableArray<GaugedString> Strings)
{
    /// <summary>Semitones by which a player retunes a string before choosing another one.</summary>
    private const int FarthestRetuned = 5;

    public static ImmutableArray<GaugeSet> All { get; } =
        [.. PublishedTable.Rows("string-sets.tsv").GroupBy(cells => cells[0]).Select(g => new GaugeSet(g.Key, [.. g.Reverse().Select(Row)]))];

    public bool IsNylon => Name.Contains("nylon", StringComparison.Ordinal);

    /// <summary>The string that a player would put on for an open pitch: the set's own in its place, or, far from its pitch, the nearest of the set.</summary>
    public GaugedString For(int stringIndex, int open) =>
        stringIndex < Strings.Length && Math.Abs(Strings[stringIndex].MadeFor.Midi - open) <= FarthestRetuned ? Strings[stringIndex]
            : Strings.MinBy(s => Math.Abs(s.MadeFor.Midi - open))!;

    private static GaugedString Row(string[] cells) =>
        new(Pitch.Parse(cells[2]), cells[3] == "plain", Length.FromInches(Number(cells[4])), Length.FromMillimetres(Number(cells[5])), Number(cells[6]),
            Newtons.FromNewtons(Number(cells[7])), Length.FromMillimetres(Number(cells[8])), cells[9]);

    private static double Number(string cell) => double.Parse(cell, CultureInfo.InvariantCulture);
}
