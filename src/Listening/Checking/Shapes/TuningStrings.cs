using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Checking.Shapes;

/// <summary>Weighs each open string against itself a semitone or a tone off, over all that a song has struck on it, whatever the fret.</summary>
internal sealed class TuningStrings(Song song, SongClock clock, HeardStarts starts, StrikeCurve curve)
{
    private readonly WeigherModel model = WeigherModel.Of("TuningString");

    public IEnumerable<Finding> Weigh()
    {
        var neck = new Fretboard(song.Tuning.Value, song.Capo.Value);
        var struck = song.Bars.SelectMany(b => Struck(b, clock, neck, curve)).ToLookup(s => s.StringIndex, s => s.Moment);
        return Enumerable.Range(0, song.Tuning.Value.Count).Where(s => struck[s].Any()).Select(s => Weigh(s, new(starts, [.. struck[s]])));
    }

    private Finding Weigh(int s, StringEvidence evidence)
    {
        var tuning = song.Tuning.Value;
        var by = evidence.Rival(_ => true).By;
        var logOdds = model.LogOdds(evidence.Features(by));
        var other = Pitch.FromMidi(tuning.Strings[s].Midi + by, song.Key.Value.Centre);
        var better = Tuning.Of(tuning.Strings.SetItem(s, other));
        var moved = $"{(Math.Abs(by) == 1 ? "a semitone" : "a tone")} {(by > 0 ? "higher" : "lower")}";
        var heard = evidence.RivalStarts(by) ? $"what is struck on it sounds {moved}, as from {other}" : "what is struck on it isn't heard";
        var claim = $"string {tuning.Count - s} is tuned to {tuning.Strings[s]}";
        var found = Finding.Weighed(ClaimKind.TuningString, logOdds, null, claim, heard) with { Rival = new(better.ToString(), -logOdds) };
        return evidence.RivalStarts(by) ? (found with { Suggestion = better.ToString() }).Stating(SongFact.Tuning) : found;
    }

    /// <summary>What is struck on each string: by strokes with the hand's shape, or picked anywhere.</summary>
    public static IEnumerable<(int StringIndex, (double Time, int Midi, int[] Others) Moment)> Struck(
        Bar bar, SongClock clock, Fretboard neck, StrikeCurve curve) =>
        StruckMoments.Of(bar, clock, curve).Where(m => !m.IsAlone).Select(m => (m.StringIndex, (m.Time, neck.MidiAt(m.StringIndex, m.Fret),
            SongNotes.Sounding(m.Shape, neck, except: m.StringIndex))))
        .Concat(bar.Picked.Where(p => p.Value is { IsMuted: false, TouchedAt: null } && p.Value.Bend.IsNone).Select(p => (p.Value.StringIndex,
            (clock.TimeOf(bar.Number, p.Start).Value, neck.MidiAt(p.Value.StringIndex, p.Value.Fret), Together(bar, p, neck)))));

    /// <summary>What else is picked at the same place.</summary>
    private static int[] Together(Bar bar, Claim<PickedNote> note, Fretboard neck) => [.. bar.Picked
        .Where(p => p.Start == note.Start && p.Value.StringIndex != note.Value.StringIndex).Select(p => p.Value.MidiOn(neck)).OfType<int>()];
}
