using System.Globalization;
using Harkbook.Listening;
using Harkbook.Music.Theory;

namespace Harkbook.App.Reports;

/// <summary>What was heard beside the guitar, as lines of the hearing's report.</summary>
internal static class LinesReport
{
    public static IEnumerable<(string Label, string Value)> Lines(HeardLines heard) =>
        heard.Found.IsEmpty ? [("with it", $"nothing but guitar  {HearingReport.Sure(heard.Alone)}")] : heard.Found.SelectMany(Lines);

    private static IEnumerable<(string Label, string Value)> Lines(HeardLine line)
    {
        yield return ("with it", $"{Name(line.Kind.Best)}  {HearingReport.Sure(line.Kind.Confidence)}{HearingReport.Others(line.Kind, Name)}: "
            + $"{line.Kind.Candidates[0].Evidence}");
        if (line.Harp is { } harp)
            yield return ("harp", $"in {harp.Best.Key}, position {harp.Best.Position}  "
                + $"{HearingReport.Sure(harp.Confidence)}{HearingReport.Others(harp, h => h.Key.ToString())}: {harp.Candidates[0].Evidence}");
        if (line.Harp is null && !line.Notes.IsEmpty)
            yield return ("", $"{line.Notes.Length} notes from {Pitch.FromMidi(line.Notes.Min(n => n.Midi))} to {Pitch.FromMidi(line.Notes.Max(n => n.Midi))}; "
                + "--json and --jams have them all");
        foreach (var note in line.Harp is null ? [] : line.Notes)
            yield return ("", Note(note));
    }

    private static string Name(LineKind kind) => kind switch
    {
        LineKind.Whistle => "whistle or flute",
        LineKind.Bowed => "fiddle",
        _ => kind.ToString().ToLowerInvariant(),
    };

    private static string Note(HeardLineNote note)
    {
        var pitch = Pitch.FromMidi(note.Midi);
        var off = string.Create(CultureInfo.InvariantCulture, $"{note.Off.Value:+0;-0;0} cents");
        var hole = note.Holes is { } holes ? $"  {holes.Best,-5}{HearingReport.Others(holes, h => h.ToString())}" : "";
        return $"{HearingReport.Clock(note.Onset)}–{HearingReport.Clock(note.End)}  {pitch,-4} {off,9}{hole}  {HearingReport.Sure(note.Confidence)}";
    }
}
