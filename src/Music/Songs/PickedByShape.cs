using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Music.Songs;

/// <summary>
/// What a song picks out of each of its shapes. A note that its shape holds, plainly picked, may go to another string with the shape, as long as
/// it sounds as it did; any other, and one that the next on its string goes on from, keeps its string.
/// </summary>
internal sealed class PickedByShape
{
    private readonly Fretboard neck;
    private readonly ILookup<string, (PickedNote Note, bool Free)> notes;

    public PickedByShape(Song song)
    {
        neck = new(song.Tuning.Value, song.Capo.Value);
        notes = song.Bars.SelectMany(bar => bar.Picked.Where(p => IsHeld(bar, p)).Select(p => (Chord: ChordAt(bar, p), p.Value, Free: IsFree(bar, p))))
            .ToLookup(p => p.Chord!.Name, p => (p.Value, p.Free));
    }

    /// <summary>Whether notes that a chord's shape holds are picked.</summary>
    public bool Has(string name) => notes.Contains(name);

    /// <summary>Whether another shape has all that is picked out of a chord's own.</summary>
    public bool Fits(string name, Shape other, Capo capo) => notes[name].Distinct().All(n => n.Free
        ? StringIn(n.Note, other, capo) is not null
        : neck.MidiAt(n.Note.StringIndex, n.Note.Fret) - new Fretboard(neck.Tuning, capo).MidiAt(n.Note.StringIndex, 0) == other.Frets[n.Note.StringIndex]);

    /// <summary>The string on which a shape sounds the note, its own before others; null where none does.</summary>
    public int? StringIn(PickedNote note, Shape shape, Capo capo)
    {
        var (after, midi) = (new Fretboard(neck.Tuning, capo), neck.MidiAt(note.StringIndex, note.Fret));
        return Enumerable.Range(0, shape.Frets.Length).Where(i => shape.Frets[i] is { } fret && after.MidiAt(i, fret) == midi)
            .OrderBy(i => Math.Abs(i - note.StringIndex)).Select(i => (int?)i).FirstOrDefault();
    }

    /// <summary>Whether a note may change its string.</summary>
    public static bool IsFree(Bar bar, Claim<PickedNote> note) => IsHeld(bar, note) && IsPlain(note.Value)
        && bar.Picked.Where(p => p.Start > note.Start
            && p.Value.StringIndex == note.Value.StringIndex).MinBy(p => p.Start) is not { Value.Attack: Attack.HammeredOn or Attack.PulledOff or Attack.Slid };

    private static bool IsHeld(Bar bar, Claim<PickedNote> note) =>
        ChordAt(bar, note)?.Shape is { } shape && shape.Frets[note.Value.StringIndex] == note.Value.Fret;

    public static ChordUse? ChordAt(Bar bar, Claim<PickedNote> note) => bar.Chords.LastOrDefault(c => c.Start <= note.Start)?.Value;

    private static bool IsPlain(PickedNote note) =>
        note.Attack == Attack.Picked && !note.IsMuted && note is { TouchedAt: null, Graces.Count: 0, SlideOff: SlideOff.None } && note.Bend.IsNone;
}
