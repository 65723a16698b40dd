using System.Globalization;
using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Checking.Notes;

/// <summary>Weighs the picked notes of a song, and that nothing more is picked in bars that have such notes and no strokes.</summary>
internal sealed class PickedNotes
{
    /// <summary>
    /// How far from its place a syllable's note may start, in seconds: what is sung has no pitch where no tune is written, so a note that is heard there
    /// may be the voice's.
    /// </summary>
    private const double SungNear = 0.15;

    private readonly Song song;
    private readonly SongClock clock;
    private readonly Fretboard neck;
    private readonly NoteWeigher weigher;
    private readonly UnwrittenNotes unwritten;

    public PickedNotes(Song song, SongClock clock, HeardStarts starts, WrittenNotes written, Hearing hearing)
    {
        (this.song, this.clock, neck) = (song, clock, new(song.Tuning.Value, song.Capo.Value));
        weigher = new(starts, written);
        unwritten = new(starts, written, hearing, song.Bars.Where(IsComplete).Select(Stretch), IsSung(song, clock));
    }

    /// <summary>Whether a heard note may be one that is sung at a pitch that isn't written.</summary>
    public static Func<HeardNote, bool> IsSung(Song song, SongClock clock)
    {
        var sung = song.Bars.Where(b => b.Tune.IsEmpty).SelectMany(b => b.Sung.Select(s => clock.TimeOf(b.Number, s.Start).Value)).ToArray();
        return note => sung.Any(s => Math.Abs(s - note.Onset.Value) < SungNear);
    }

    public IEnumerable<Finding> Weigh(Bar bar)
    {
        var notes = bar.Picked.Where(p => p.Value.MidiOn(neck) is not null).Select(p => Weigh(bar, p));
        var (from, to) = Stretch(bar);
        return IsComplete(bar) ? notes.Concat(unwritten.Between(from, to, song.Key.Value.Centre, time => Place.Heard(time, clock))) : notes;
    }

    /// <summary>A bar with picked notes claims to have all of them, but where there are strokes, too, which sound more.</summary>
    public static bool IsComplete(Bar bar) => !bar.Picked.IsEmpty && bar.Strums.IsEmpty;

    private (double From, double To) Stretch(Bar bar) => (clock.TimeOf(bar.Number).Value, clock.TimeOf(bar.Number, bar.Meter.BarLength).Value);

    /// <param name="note">Not a muted one, which has no pitch to weigh.</param>
    public static NoteClaim ClaimOf(Bar bar, Claim<PickedNote> note, SongClock clock, Fretboard neck) => new(
        note.Value.MidiOn(neck)!.Value, clock.TimeOf(bar.Number, note.Start).Value, clock.TimeOf(bar.Number, note.Start + note.Length).Value,
        (int)Math.Ceiling(note.Value.Bend.By.Value / 100 - 0.5), note.Value.Attack is Attack.HammeredOn or Attack.PulledOff or Attack.Slid);

    private Finding Weigh(Bar bar, Claim<PickedNote> note)
    {
        var claim = ClaimOf(bar, note, clock, neck);
        var words = new NoteWords($"{HowPlayed(note.Value)}, {Pitch.FromMidi(claim.Midi, song.Key.Value.Centre)}", song.Key.Value.Centre,
            by => Fret(note.Value, by), ".", Eighths.In(bar, clock));
        return weigher.Weigh(claim, words, new(clock.TimeOf(bar.Number, note.Start), bar.Number, note.Start.Value + 1));
    }

    /// <summary>The fret that lies so many semitones higher on the string; below the open one there is none.</summary>
    private static string? Fret(PickedNote note, int by) =>
        note.Fret + by is >= 0 and <= PickedNote.HighestFret and var fret ? fret.ToString(CultureInfo.InvariantCulture) : null;

    /// <summary>"string 4 (D3) fret 2": string 1 is the thin one, its pitch is that of the open string without capo, and frets count from the capo.</summary>
    private string HowPlayed(PickedNote note)
    {
        var tuning = song.Tuning.Value;
        var where = note.TouchedAt is { } touch ? $"harmonic at fret {touch}" : $"fret {note.Fret}";
        return $"string {tuning.Count - note.StringIndex} ({tuning.Strings[note.StringIndex]}) {where}{(note.Bend.IsNone ? "" : " bent")}";
    }
}
