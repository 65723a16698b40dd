using System.Collections.Immutable;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Instruments.Winds;

/// <summary>A kind of wind with finger holes, as it is in D. Read from data/fingered-winds.tsv, whose head says how to add one.</summary>
/// <param name="InD">Every fingering; where a pitch has several, the usual one stands first.</param>
public sealed record WindKind(string Name, ImmutableArray<string> OtherNames, ImmutableArray<WindFingering> InD)
{
    public static ImmutableArray<WindKind> All { get; } = [.. Kinds(PublishedTable.Rows("fingered-winds.tsv"))];

    /// <summary>The tin whistle and its like.</summary>
    public static WindKind Whistle { get; } = All[0];

    /// <summary>A kind by name or other name, in any case; null when the table has none.</summary>
    public static WindKind? Find(string name) => All.FirstOrDefault(k => k.OtherNames.Prepend(k.Name).Contains(name.Trim(), StringComparer.OrdinalIgnoreCase));

    /// <summary>Kinds from the text of a table written as data/fingered-winds.tsv is.</summary>
    public static ImmutableArray<WindKind> ReadTable(string text) => [.. Kinds(PublishedTable.RowsOf(new StringReader(text)))];

    private static IEnumerable<WindKind> Kinds(IEnumerable<string[]> rows) =>
        rows.GroupBy(r => r[0]).Select(kind => new WindKind(kind.Key, [.. kind.First()[1].Split(';', StringSplitOptions.RemoveEmptyEntries)],
            [.. kind.Select(r => new WindFingering(Pitch.Parse(r[2]), r[3], r[4] == "high", r[5]))]));
}
