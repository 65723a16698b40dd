using System.Globalization;
using Harkbook.Listening;
using Harkbook.Music.Theory;

namespace Harkbook.App;

/// <summary>What was heard of a second instrument, as lines of the hearing's report.</summary>
internal static class SecondInstrumentReport
{
    public static IEnumerable<(string Label, string Value)> Lines(HeardSecondInstrument heard)
    {
        yield return ("with it", $"{Name(heard.Kind.Best)}  {HearingReport.Sure(heard.Kind.Confidence)}{HearingReport.Others(heard.Kind, Name)}: {heard.Kind.Candidates[0].Evidence}");
        if (heard.Harp is { } harp)
            yield return ("harp", $"in {harp.Best.Key}, position {harp.Best.Position}  {HearingReport.Sure(harp.Confidence)}{HearingReport.Others(harp, h => h.Key.ToString())}: {harp.Candidates[0].Evidence}");
        if (heard.Harp is null && !heard.Notes.IsEmpty)
            yield return ("", $"{heard.Notes.Length} notes from {Pitch.FromMidi(heard.Notes.Min(n => n.Midi))} to {Pitch.FromMidi(heard.Notes.Max(n => n.Midi))}; --json and --jams have them all");
        foreach (var note in heard.Harp is null ? [] : heard.Notes)
            yield return ("", Note(note));
    }

    private static string Name(SecondInstrumentKind kind) => kind switch
    {
        SecondInstrumentKind.None => "nothing but guitar",
        SecondInstrumentKind.Whistle => "whistle or flute",
        SecondInstrumentKind.Bowed => "fiddle",
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
