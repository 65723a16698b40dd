using System.Collections.Immutable;
using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Music.Songs;

/// <summary>
/// Picked notes as they sound in a song, on the frets of another capo: those that a shape holds where the new shape has them, others on their
/// own string where it reaches so low, else on the nearest free one.
/// </summary>
internal sealed class PickedUnderCapo(Song song, Capo capo, ImmutableArray<NamedShape> shapes)
{
    private const int Highest = 20;

    private readonly Fretboard before = new(song.Tuning.Value, song.Capo.Value);
    private readonly Fretboard after = new(song.Tuning.Value, capo);
    private readonly PickedByShape byShape = new(song);
    private string missing = "";

    public ImmutableArray<Section> Sections(out string problem)
    {
        ImmutableArray<Section> sections = [.. song.Sections.Select(s => s with { Bars = [.. s.Bars.Select(Moved)] })];
        problem = missing;
        return sections;
    }

    private Bar Moved(Bar bar) => bar with
    {
        Picked = [.. bar.Picked.GroupBy(p => p.Start).SelectMany(g => Together(bar, [.. g])).OrderBy(p => p.Start).ThenBy(p => p.Value.StringIndex)],
    };

    /// <summary>Notes that start together, each on a string of its own: their own ones, or those that stay lowest on the neck and nearest to them.</summary>
    private IEnumerable<Claim<PickedNote>> Together(Bar bar, ImmutableArray<Claim<PickedNote>> notes)
    {
        if ((InShape(bar, notes) ?? Own(notes)) is { } own)
            return notes.Zip(own, At);
        var best = Ways(notes, []).MinBy(w => (w.Max(p => p.Fret), w.Zip(notes, (place, n) => Math.Abs(place.StringIndex - n.Value.StringIndex)).Sum()));
        if (best is not null)
            return notes.Zip(best, At);
        Miss(bar, notes.FirstOrDefault(n => !Places(n.Value).Any(), notes[0]).Value);
        return [];
    }

    /// <summary>Where the new shape sounds them, each on a string of its own, and on their own strings those that keep them; null where it doesn't.</summary>
    private FretPlace[]? InShape(Bar bar, ImmutableArray<Claim<PickedNote>> notes)
    {
        if (PickedByShape.ChordAt(bar, notes[0]) is not { } chord || shapes.FirstOrDefault(s => s.Name == chord.Name) is not { } named)
            return null;
        var strings = notes.Select(n => PickedByShape.IsFree(bar, n) ? byShape.StringIn(n.Value, named.Shape, capo) : n.Value.StringIndex).ToArray();
        var places = strings.Zip(notes, (s, n) => s is { } at && Fret(n.Value, at) is { } fret ? new FretPlace(at, fret) : (FretPlace?)null).ToArray();
        return places.Contains(null) || strings.Distinct().Count() < strings.Length ? null : [.. places.Select(p => p!.Value)];
    }

    private FretPlace[]? Own(ImmutableArray<Claim<PickedNote>> notes) =>
        notes.All(n => Fret(n.Value, n.Value.StringIndex) is not null)
            ? [.. notes.Select(n => new FretPlace(n.Value.StringIndex, Fret(n.Value, n.Value.StringIndex)!.Value))] : null;

    /// <summary>Every way to give the notes strings of their own.</summary>
    private IEnumerable<FretPlace[]> Ways(ImmutableArray<Claim<PickedNote>> notes, FretPlace[] placed) =>
        placed.Length == notes.Length ? [placed]
        : Places(notes[placed.Length].Value).Where(p => placed.All(other => other.StringIndex != p.StringIndex)).SelectMany(p => Ways(notes, [.. placed, p]));

    private IEnumerable<FretPlace> Places(PickedNote note) =>
        Enumerable.Range(0, after.Tuning.Count).Select(s => (String: s, Fret: Fret(note, s))).Where(p => p.Fret is not null).Select(p =>
            new FretPlace(p.String, p.Fret!.Value));

    /// <summary>On another string than before, a note can't be hammered on or slid to from it.</summary>
    private static Claim<PickedNote> At(Claim<PickedNote> note, FretPlace place) => note with
    {
        Value = place.StringIndex == note.Value.StringIndex || note.Value.Graces.Count > 0
            ? note.Value.MovedTo(place.StringIndex, place.Fret)
            : note.Value.MovedTo(place.StringIndex, place.Fret) with { Attack = Attack.Picked },
    };

    /// <summary>A muted note has no pitch and stays on its string.</summary>
    private int? Fret(PickedNote note, int stringIndex)
    {
        if (note.IsMuted)
            return stringIndex == note.StringIndex ? 0 : null;
        var fret = before.MidiAt(note.StringIndex, note.Fret) - after.MidiAt(stringIndex, 0);
        return fret is >= 0 and <= Highest && note.CanMoveTo(fret) ? fret : null;
    }

    private void Miss(Bar bar, PickedNote note)
    {
        if (missing.Length == 0)
            missing = $"{before.PitchAt(note.StringIndex, note.Fret, song.Key.Value.Centre)}, picked in bar {bar.Number}, lies on no free string with the capo "
                + $"on fret {capo.Fret}";
    }
}
