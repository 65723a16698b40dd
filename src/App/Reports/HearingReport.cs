using System.Globalization;
using System.Text;
using Harkbook.Listening;
using Harkbook.Units;

namespace Harkbook.App.Reports;

/// <summary>A Hearing as a page of plain text: each estimate with how sure it is and what else it might be.</summary>
internal static class HearingReport
{
    public static string Write(Hearing hearing)
    {
        var text = new StringBuilder();
        var recording = hearing.Recording;
        Line("recording", $"{Path.GetFileName(recording.Path)}  {Clock(recording.Length)}, {recording.Format}, {recording.Channels} "
            + $"channel{(recording.Channels == 1 ? "" : "s")}, {recording.Rate}");
        var cents = Cents.Between(Hertz.A440, hearing.ReferencePitch.Best).Value;
        Line("pitch", $"A4 = {Number(hearing.ReferencePitch.Best.Value, "0.0")} Hz, {Number(cents, "+0;-0;0")} cents from A440  "
            + $"{Sure(hearing.ReferencePitch.Confidence)}");
        Line("tempo", $"{Number(hearing.Tempo.Best, "0.0")} beats a minute  {Sure(hearing.Tempo.Confidence)}{Others(hearing.Tempo, t => Number(t, "0.0"))}");
        Line("meter", $"{hearing.Meter.Best}  {Sure(hearing.Meter.Confidence)}{Others(hearing.Meter, m => m.ToString())}");
        Line("beats", hearing.Beats.IsEmpty
            ? "none found"
            : $"{hearing.Beats.Length} from {Clock(hearing.Beats[0].Time)} to {Clock(hearing.Beats[^1].Time)}, "
                + $"{hearing.Beats.Count(b => b.PositionInBar == 1)} bars");
        foreach (var key in hearing.Keys)
            Line("key", $"{key.Key.Best}  {Span(key.Start, key.End)}  {Sure(key.Key.Confidence)}{Others(key.Key, k => k.ToString())}");
        foreach (var candidate in hearing.Tuning.Candidates.Take(3))
        {
            var (tuning, capo, name) = candidate.Value;
            Line(candidate == hearing.Tuning.Candidates[0] ? "tuning"
                : "  or", $"{tuning}{(name is null ? "" : $" ({name})")}, {(capo.Fret == 0 ? "no capo" : $"capo {capo.Describe(tuning)}")}  "
                    + $"{Sure(candidate.Confidence)}{(candidate.Evidence is null ? "" : ": " + candidate.Evidence)}");
        }
        Line("notes", $"{hearing.Notes.Length}");
        foreach (var (label, value) in LinesReport.Lines(hearing.Lines))
            Line(label, value);
        foreach (var section in hearing.Sections)
            Line("section", $"{section.Label}  {Span(section.Start, section.End)}  {Sure(section.Confidence)}");
        text.AppendLine("chords");
        foreach (var chord in hearing.Chords)
            text.AppendLine(CultureInfo.InvariantCulture,
                $"  {Span(chord.Start, chord.End)}  {chord.Chord.Best,-10} {Sure(chord.Chord.Confidence)}{Others(chord.Chord, c => c.ToString())}");
        return text.ToString();

        void Line(string label, string value) => text.AppendLine(CultureInfo.InvariantCulture, $"{label,-10} {value}");
    }

    /// <summary>Minutes and seconds: "1:02.35"; before the recording's start "-0:01.20".</summary>
    public static string Clock(Seconds time)
    {
        // Rounded first, so that 59.996 s reads 1:00.00 and not 0:60.00.
        var rounded = Math.Round((decimal)Math.Abs(time.Value), 2);
        var minutes = decimal.Truncate(rounded / 60);
        var sign = time.Value < 0 && rounded > 0 ? "-" : "";
        return string.Create(CultureInfo.InvariantCulture, $"{sign}{minutes}:{rounded - minutes * 60:00.00}");
    }

    private static string Span(Seconds start, Seconds end) => $"{Clock(start)}–{Clock(end)}";

    private static string Number(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);

    /// <summary>Nothing heard is certain, so 99 is the most.</summary>
    public static int Percent(double confidence) => Math.Min(99, (int)Math.Round(confidence * 100));

    /// <summary>Nothing that is heard is certain; what a person told is.</summary>
    public static string Sure(double confidence) =>
        confidence >= 1 ? "[as told]" : string.Create(CultureInfo.InvariantCulture, $"[{Percent(confidence)}% sure]");

    public static string Others<T>(Distribution<T> estimate, Func<T, string> write)
    {
        var others = estimate.Candidates.Skip(1).Where(c => c.Confidence >= 0.05).Take(2)
            .Select(c => string.Create(CultureInfo.InvariantCulture, $"{write(c.Value)} {Percent(c.Confidence)}%"))
            .ToArray();
        return others.Length == 0 ? "" : "  or " + string.Join(", ", others);
    }
}
