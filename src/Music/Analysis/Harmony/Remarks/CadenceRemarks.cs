namespace Harkbook.Music.Analysis.Harmony.Remarks;

/// <summary>How sections end, where they don't simply come home from five.</summary>
internal static class CadenceRemarks
{
    public static IEnumerable<Remark> Of(HarmonicAnalysis analysis) =>
        analysis.Cadences.Where(c => c.Kind != CadenceKind.Authentic).GroupBy(c => c.Kind).Select(g => Remark(g.Key, [.. g]));

    private static Remark Remark(CadenceKind kind, List<Cadence> cadences)
    {
        var names = cadences.Select(c => c.SectionName).Distinct().ToList();
        var one = names.Count == 1;
        return new(RemarkKind.SectionCadence, $"{NumberWords.List(names)} {(one ? "ends" : "end")} {Words(kind)}.",
            [new("cadence", $"{kind} at the end of {NumberWords.List(names)}", "the last two chords of each section, terms of Open Music Theory")])
        {
            Places = [.. cadences.Select(c => c.Place)],
        };
    }

    private static string Words(CadenceKind kind) => kind switch
    {
        CadenceKind.Half => "on the five chord, left open, which textbooks call a half cadence",
        CadenceKind.Plagal => "by coming home from the four chord, which textbooks call a plagal cadence",
        _ => "by going from five to six instead of home, which textbooks call a deceptive cadence",
    };
}
