using Harkbook.Music.Instruments;

namespace Harkbook.Music.Songs;

/// <summary>
/// What a song picks out of each of its shapes. Where a bar picks nothing but notes that its shapes hold, they may go to other strings with the
/// shape, as long as each sounds as it did; other bars keep their strings.
/// </summary>
internal sealed class PickedByShape
{
    private readonly Fretboard neck;
    private readonly ILookup<string, (PickedNote Note, bool Free)> notes;

    public PickedByShape(Song song)
    {
        neck = new(song.Tuning.Value, song.Capo.Value);
        notes = song.Bars.SelectMany(bar => bar.Picked.Select(p => (Chord: ChordAt(bar, p), p.Value, Free: IsHeld(bar))))
            .Where(p => p.Chord?.Shape is not null).ToLookup(p => p.Chord!.Name, p => (p.Value, p.Free));
    }

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

    /// <summary>Whether the shapes of the moment hold every note that the bar picks, each plainly picked.</summary>
    public static bool IsHeld(Bar bar) => bar.Picked.All(p => IsPlain(p.Value) && ChordAt(bar, p)?.Shape is { } shape && shape.Frets[p.Value.StringIndex] == p.Value.Fret);

    public static ChordUse? ChordAt(Bar bar, Claim<PickedNote> note) => bar.Chords.LastOrDefault(c => c.Start <= note.Start)?.Value;

    private static bool IsPlain(PickedNote note) =>
        note.Attack == Attack.Picked && !note.IsMuted && note is { TouchedAt: null, Graces.Count: 0, SlideOff: SlideOff.None } && note.Bend.IsNone;
}
