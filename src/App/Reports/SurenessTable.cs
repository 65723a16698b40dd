using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Listening.Evaluation;

namespace Harkbook.App.Reports;

/// <summary>How sure estimates were said to be beside how often they were right, a line a kind of estimate.</summary>
internal static class SurenessTable
{
    public static string Write(ImmutableArray<Reliability> rows) => rows.IsEmpty ? "" :
        "\nHow often it was right when it was so sure (of so many estimates; chords and keys by their time)\n"
        + string.Concat(rows.GroupBy(r => r.Kind).Select(kind => $"  {kind.Key,-16} {string.Join("   ", kind.Select(Cell))}\n"));

    private static string Cell(Reliability row) =>
        string.Create(CultureInfo.InvariantCulture, $"{100 * row.From:0}-{100 * row.To:0}%: {row.Share:0%} of {row.Count}");
}
