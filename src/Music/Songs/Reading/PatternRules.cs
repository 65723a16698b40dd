using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs.Reading;

/// <summary>What must be right where a pattern is played, and what looks as if one were meant.</summary>
internal static class PatternRules
{
    public static void Check(SectionSyntax section, Func<int, Meter> meterOf, DiagnosticBag bag)
    {
        foreach (var part in new[] { SongPart.Strum, SongPart.Pick })
        {
            var voices = section.Voices().Where(v => v.Part == part).Select(section.BarsOf).ToList();
            CheckMeters(section, voices, meterOf, bag);
            CheckStops(section, part, voices, bag);
        }
    }

    /// <summary>A bar with as many beats as the pattern's, or fewer, of the same kind takes the pattern's first beats; any other must be written.</summary>
    private static void CheckMeters(SectionSyntax section, List<Dictionary<int, (PartLine Line, BarSyntax Bar)>> voices, Func<int, Meter> meterOf,
        DiagnosticBag bag)
    {
        foreach (var (bar, (line, _)) in voices.SelectMany(v => v).Where(b => b.Value.Line.Repeats
            && b.Key <= section.BarCount).OrderBy(b => b.Key).DistinctBy(b => b.Key))
        {
            var (meter, pattern) = (meterOf(bar), line.MeterAt(bar, meterOf));
            if (meter.Lower != pattern.Lower || meter.IsCompound != pattern.IsCompound || meter.Upper > pattern.Upper)
                bag.Add(DiagnosticCode.PatternMeter, line.Line.Keyword.Span,
                    $"Bar {bar} of {section.Name} is in {meter}, and this pattern, written for {pattern}, doesn't say what is played there.",
                    $"Write that bar in a line of its own, as in {line.Line.Keyword.Text} from {bar}, or have another pattern from there.");
        }
    }

    /// <summary>Bars of a lone dot after strokes look as if the strokes went on, and don't.</summary>
    private static void CheckStops(SectionSyntax section, SongPart part, List<Dictionary<int, (PartLine Line, BarSyntax Bar)>> voices, DiagnosticBag bag)
    {
        var word = part.ToString().ToLowerInvariant();
        var rings = new bool[voices.Count];
        var said = -1;
        for (var bar = 1; bar <= section.BarCount; bar++)
        {
            var written = voices.Select(v => v.TryGetValue(bar, out var found) ? found : default).ToList();
            var lone = written.All(w => w.Bar is null or { Leaves: [] } or { Leaves: [{ GoesOn: true }] });
            var own = written.FirstOrDefault(w => w.Line is { Repeats: false } line && section.Lines.Contains(line));
            if (lone && own.Bar is not null && rings.Any(r => r) && said != bar - 1)
                bag.Add(DiagnosticCode.PatternStops, own.Bar.Between,
                    $"A bar of a lone . doesn't repeat the {word} before it: the last {(part == SongPart.Strum ? "stroke" : "notes")} ring on.",
                    $"To play the bars before it over and over, write '{word} {BarLineReader.Throughout}'; to let it ring, write a . for each beat; for "
                        + "silence, _.");
            if (lone && own.Bar is not null)
                said = bar;
            for (var i = 0; i < written.Count; i++)
                rings[i] = written[i].Bar?.Leaves.LastOrDefault(l => !l.GoesOn) is { } last ? !last.Silences : written[i].Bar is not null && rings[i];
        }
    }
}
