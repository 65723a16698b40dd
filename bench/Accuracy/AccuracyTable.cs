using System.Globalization;
using System.Text;

namespace Harkbook.Bench.Accuracy;

/// <summary>How good each estimate is on several sets, as one table in Markdown: a row for each measure, a column for each set.</summary>
internal static class AccuracyTable
{
    private const double Sure = 0.9;

    private static readonly (string Row, string[] Measures)[] Rows =
    [
        ("reference pitch within 3 cents", ["reference pitch within 3 cents"]),
        ("beat F / downbeat F", ["beat F", "downbeat F"]),
        ("tempo within 4% / or an octave", ["tempo within 4%", "tempo within 4% or an octave"]),
        ("key, weighted", ["key, weighted"]),
        ("chord root / majmin", ["chord root", "chord majmin"]),
        ("chord sevenths / majmin with bass", ["chord sevenths", "chord majmin with bass"]),
        ("boundary F, 0.5 s", ["boundary F, 0.5 s"]),
        ("note onset F / with offset / frame", ["note onset F", "note with offset F", "frame F"]),
        ("tuning and capo, first choice", ["tuning and capo, first choice"]),
        ("string and fret / tuning told", ["string and fret", "string and fret, tuning given"]),
        ("second instruments, just these", ["second instruments, just these"]),
        ("melody raw pitch / line note onset F", ["melody raw pitch", "line note onset F"]),
        ("harp key / hole and breath", ["harp key, first choice", "harp hole and breath"]),
    ];

    /// <param name="sets">A name and what was printed of it; the file of before first where there are two.</param>
    public static string Write(IReadOnlyList<(string Name, EvalFile[] Files)> sets)
    {
        var lines = Rows.Where(r => sets.Any(s => s.Files.Any(f => r.Measures.Any(m => f.Of(m) is not null))))
            .Select(r => (r.Row, Cells: sets.Select(s => Cell(s.Files, r.Measures))))
            .Concat(sets.SelectMany(s => s.Files[^1].Sureness).Select(j => j.Kind).Distinct().Select(kind =>
                ($"{kind}s at least 90% sure that are right, of how many", sets.Select(s => Changed(s.Files, f => SureCell(f, kind))))));
        var table = new StringBuilder($"| | {string.Join(" | ", sets.Select(s => $"{s.Name} ({s.Files[^1].Recordings})"))} |\n");
        table.Append($"|---|{string.Concat(sets.Select(_ => "---|"))}\n");
        foreach (var (row, cells) in lines)
            table.Append($"| {row} | {string.Join(" | ", cells)} |\n");
        return table.ToString();
    }

    /// <summary>The figures, and of how many recordings where that is not all.</summary>
    private static string Cell(EvalFile[] files, string[] measures)
    {
        if (files.All(f => measures.All(m => f.Of(m) is null)))
            return "";
        var count = measures.Max(files[^1].CountOf);
        return Changed(files, f => string.Join(" / ", measures.Select(m => Figure(f.Of(m))))) + (count < files[^1].Recordings ? $" ({count})" : "");
    }

    private static string Changed(EvalFile[] files, Func<EvalFile, string> cell) => string.Join(" → ", files.Select(cell));

    private static string SureCell(EvalFile file, string kind)
    {
        var sure = file.Sureness.Where(j => j.Kind == kind && j.From >= Sure).ToArray();
        var count = sure.Sum(j => j.Count);
        return count == 0 ? "none" : $"{Figure(sure.Sum(j => j.Right * j.Count) / count)} of {count}";
    }

    /// <summary>".897" and "1.000", as tables of scores have them.</summary>
    private static string Figure(double? value) => value is { } share ? share.ToString("0.000", CultureInfo.InvariantCulture).TrimStart('0') : "–";
}
