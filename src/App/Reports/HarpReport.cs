using System.Globalization;
using System.Text;
using System.Text.Json;
using Harkbook.App.Choices;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Publishing.Engraving;

namespace Harkbook.App.Reports;

/// <summary>Ranked harmonicas with what each costs, and how a song's own part breathes.</summary>
internal static class HarpReport
{
    private const int Width = 96;

    public static string Write(HarpTune tune, IReadOnlyList<HarpFit> ranked)
    {
        var text = new StringBuilder();
        var pitches = tune.Notes.SelectMany(n => n).ToArray();
        text.AppendLine(CultureInfo.InvariantCulture,
            $"{pitches.Length} notes, {pitches.MinBy(p => p.Midi)} to {pitches.MaxBy(p => p.Midi)}{(tune.Key is null ? "" : $", in {tune.Key}")}");
        foreach (var fit in ranked)
            Append(text, tune, fit);
        if (tune is { Breath: { } breath, Own: { } own })
            BreathReport.Append(text.AppendLine(), breath, own);
        return text.ToString();
    }

    private static void Append(StringBuilder text, HarpTune tune, HarpFit fit)
    {
        var position = tune.Key is { } key ? $"{OrdinalText.Of(fit.Harp.PositionFor(key.Tonic))} position, " : "";
        var own = tune.Own?.Name == fit.Harp.Name ? "  (the song's own)" : "";
        text.AppendLine().AppendLine(CultureInfo.InvariantCulture, $"{fit.Harp.Name,-6} {position}{Asks(fit)}{own}");
        foreach (var line in Wrapping.Lines(fit.Ways.Select(way => Written(way)), Width))
            text.Append("       ").AppendLine(line);
        if (!fit.Unreachable.IsEmpty)
            text.AppendLine(CultureInfo.InvariantCulture, $"       not there: {string.Join(' ', fit.Unreachable)}");
        if (fit.NotTogether > 0)
            text.AppendLine(CultureInfo.InvariantCulture, $"       {Times(fit.NotTogether)} notes that can't sound on one breath");
    }

    private static string Asks(HarpFit fit)
    {
        var parts = new List<string> { $"{fit.Plain} plain" };
        parts.AddRange(new[] { (fit.Slid, "with the slide"), (fit.Bent, "bent"), (fit.OverBent, "over-bent") }.Where(p => p.Item1 > 0)
            .Select(p => $"{p.Item1} {p.Item2}"));
        return string.Create(CultureInfo.InvariantCulture,
            $"{string.Join(", ", parts)}; breath changes {Times(fit.BreathChanges)}, mouth moves {fit.HolesMoved} {(fit.HolesMoved == 1 ? "hole" : "holes")}; "
                + $"effort {fit.Cost:0.00}");
    }

    private static string Times(int count) => count == 1 ? "once" : $"{count} times";

    private static string Written(IEnumerable<HarpNote> way) => string.Join('&', way) is { Length: > 0 } notes ? notes : "?";

    public static string Json(HarpTune tune, IReadOnlyList<HarpFit> ranked) => JsonSerializer.Serialize(
        new
        {
            key = tune.Key?.ToString(),
            pitches = tune.Notes.Select(n => n.Select(p => p.ToString())),
            harmonicas = ranked.Select(f => new
            {
                name = f.Harp.Name,
                key = f.Harp.Key.ToString(),
                octave = f.Harp.Octave,
                layout = f.Harp.Layout.Name,
                position = tune.Key is { } key ? f.Harp.PositionFor(key.Tonic) : (int?)null,
                effort = Math.Round(f.Cost, 4),
                plain = f.Plain,
                slide = f.Slid,
                bent = f.Bent,
                overBent = f.OverBent,
                breathChanges = f.BreathChanges,
                holesMoved = f.HolesMoved,
                holes = f.Ways.Select(w => w.Select(n => n.ToString())),
                notThere = f.Unreachable.Select(p => p.ToString()),
                notTogether = f.NotTogether,
            }),
            breath = tune.Breath is { } breath ? BreathReport.Json(breath) : null,
        },
        JsonLayout.Readable) + "\n";
}
