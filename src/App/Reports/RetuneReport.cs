using System.Globalization;
using System.Text;
using System.Text.Json;
using Harkbook.Music.Analysis.Retuning;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Units;

namespace Harkbook.App.Reports;

/// <summary>A change of tuning string by string.</summary>
internal static class RetuneReport
{

    public static string Write(TuningChange change, FrettedInstrument instrument, Length scale)
    {
        var text = new StringBuilder();
        text.AppendLine($"from {TuningCatalogue.Describe(change.From, instrument.Name)} to {TuningCatalogue.Describe(change.To, instrument.Name)}, "
            + $"{(change.Turned == 0 ? "nothing to turn" : $"{Counted(change.Turned, "string")} to turn")}").AppendLine();
        if (change.Turned == 0)
            return text.ToString();
        foreach (var s in change.Strings.Reverse())
            text.AppendLine(Line(s));
        if (change.Pull is { } pull)
            text.AppendLine(CultureInfo.InvariantCulture, $"all strings pull {pull.Before} before, {pull.After} after, on a scale of {scale}");
        text.AppendLine().AppendLine($"In turn: {string.Join(", ", change.InOrder.Select(Turn))}.");
        text.AppendLine(change.HowToTurn);
        foreach (var caution in Cautions(change, instrument))
            text.AppendLine(caution);
        foreach (var same in change.Looser(instrument.Name).Take(1))
            text.AppendLine($"It sounds the same in {same.Tuning.Name} with a capo at fret {same.Capo.Fret}, and fewer strings go up.");
        return text.ToString();
    }

    public static string Json(TuningChange change, FrettedInstrument instrument, Length scale) => JsonSerializer.Serialize(
        new
        {
            instrument = instrument.Name,
            from = change.From.ToString(),
            to = change.To.ToString(),
            scaleMillimetres = scale.Millimetres,
            strings = change.Strings.Select(s => new
            {
                number = s.Number,
                from = s.From.ToString(),
                to = s.To.ToString(),
                semitones = s.Semitones,
                tensionRatio = Math.Round(s.TensionRatio, 5),
                newtonsBefore = Rounded(s.Before),
                newtonsAfter = Rounded(s.After),
            }),
            order = change.InOrder.Select(s => s.Number),
            cautions = Cautions(change, instrument),
            sameUnderCapo = change.Looser(instrument.Name).Select(s => new { tuning = s.Tuning.Name, capo = s.Capo.Fret }),
        },
        JsonLayout.Readable) + "\n";

    /// <summary>Strings are taken to be made for the instrument's usual tuning.</summary>
    private static IEnumerable<string> Cautions(TuningChange change, FrettedInstrument instrument)
    {
        var usual = TuningCatalogue.All.First(t => t.Instrument == instrument.Name && t.Tuning.Count == change.To.Count).Tuning;
        var cautions = TuningCare.Cautions(change.To, usual);
        return cautions.IsEmpty ? [] : [.. cautions, "Strings differ: what one may bear its maker says; don't go past it."];
    }

    private static string Line(StringChange s) => string.Create(CultureInfo.InvariantCulture,
        $"string {s.Number,-2} {s.From,-4} "
            + $"{(s.Semitones == 0 ? "stays" : $"to {s.To,-4} {Direction(s),-4} {Counted(Math.Abs(s.Semitones), "semitone"),-12} {Pull(s)}")}");

    private static string Pull(StringChange s) => TuningCare.NeedsAnotherString(s.Semitones)
        ? $"another string: this one would be too {(s.Semitones < 0 ? "slack" : "tight")}"
        : string.Create(CultureInfo.InvariantCulture, $"tension {s.TensionRatio:0%}{Forces(s)}");

    private static string Turn(StringChange s) => TuningCare.NeedsAnotherString(s.Semitones)
        ? $"another string {s.Number} for {s.To}"
        : $"string {s.Number} {Direction(s)} to {s.To}";

    private static string Forces(StringChange s) => s is { Before: { } before, After: { } after } ? $", {before} to {after}" : "";

    private static string Direction(StringChange s) => s.Semitones < 0 ? "down" : "up";

    private static string Counted(int count, string what) => $"{count} {what}{(count == 1 ? "" : "s")}";

    private static double? Rounded(Newtons? force) => force is { } f ? Math.Round(f.Value, 2) : null;
}
