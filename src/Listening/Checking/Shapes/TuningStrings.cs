using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Checking.Shapes;

/// <summary>
/// Weighs each open string against itself a semitone or a tone off, over all that a song has struck on it, whatever the fret. Strings that are all off by
/// the same speak of the capo.
/// </summary>
internal sealed class TuningStrings(Song song, SongClock clock, HeardStarts starts, StrikeCurve curve)
{
    /// <summary>Fewer strings don't speak of the capo.</summary>
    private const int Fewest = 3;

    private const int HighestCapo = 12;

    private readonly WeigherModel model = WeigherModel.Of("TuningString");

    public IEnumerable<Finding> Weigh()
    {
        var neck = new Fretboard(song.Tuning.Value, song.Capo.Value);
        var struck = song.Bars.SelectMany(b => Struck(b, clock, neck, curve)).ToLookup(s => s.StringIndex, s => s.Moment);
        var strings = Enumerable.Range(0, song.Tuning.Value.Count).Where(s => struck[s].Any()).Select(s => Weigh(s, new(starts, [.. struck[s]]))).ToList();
        return CapoBy(strings) is { } by ? [Told(Capo.At(song.Capo.Value.Fret + by), by, strings)] : strings.Select(Told);
    }

    private OpenString Weigh(int s, StringEvidence evidence)
    {
        var by = evidence.Rival(_ => true).By;
        return new(s, by, model.LogOdds(evidence.Features(by)), evidence.RivalStarts(by));
    }

    /// <summary>By how many frets the capo is off, where all strings that sound otherwise do so by the same, and these are most; else null.</summary>
    private int? CapoBy(List<OpenString> strings)
    {
        var off = strings.FindAll(s => s.RivalStarts && s.LogOdds < 0);
        return off.Count >= Fewest && 2 * off.Count > strings.Count && off.DistinctBy(s => s.By).Count() == 1 && !song.Capo.Value.IsPartial
            && song.Capo.Value.Fret + off[0].By is >= 0 and <= HighestCapo ? off[0].By : null;
    }

    private Finding Told(Capo capo, int by, List<OpenString> strings)
    {
        var tuning = song.Tuning.Value;
        var logOdds = strings.Min(s => s.LogOdds);
        var better = $"{tuning}, capo {capo.Describe(tuning)}";
        return Finding.Weighed(ClaimKind.TuningString, logOdds, null, $"capo {song.Capo.Value.Describe(tuning)}", $"the strings sound {Moved(by)}", better)
            .Tuning(new(tuning, capo, null)) with { Rival = new(better, -logOdds) };
    }

    private Finding Told(OpenString of)
    {
        var tuning = song.Tuning.Value;
        var other = Pitch.FromMidi(tuning.Strings[of.StringIndex].Midi + of.By, song.Key.Value.Centre);
        var better = Tuning.Of(tuning.Strings.SetItem(of.StringIndex, other));
        var heard = of.RivalStarts ? $"what is struck on it sounds {Moved(of.By)}, as from {other}" : "what is struck on it isn't heard";
        var claim = $"string {tuning.Count - of.StringIndex} is tuned to {tuning.Strings[of.StringIndex]}";
        var found = Finding.Weighed(ClaimKind.TuningString, of.LogOdds, null, claim, heard) with { Rival = new(better.ToString(), -of.LogOdds) };
        return of.RivalStarts ? (found with { Suggestion = better.ToString() }).Stating(SongFact.Tuning) : found;
    }

    private static string Moved(int by) => $"{(Math.Abs(by) == 1 ? "a semitone" : "a tone")} {(by > 0 ? "higher" : "lower")}";

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

    private sealed record OpenString(int StringIndex, int By, double LogOdds, bool RivalStarts);
}
