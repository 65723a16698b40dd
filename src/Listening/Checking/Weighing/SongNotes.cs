using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Checking.Weighing;

/// <summary>All notes that a song claims to sound: picked, strummed, blown, and its tune's.</summary>
internal static class SongNotes
{
    public static IEnumerable<WrittenNote> Of(Song song, SongClock clock)
    {
        var neck = new Fretboard(song.Tuning.Value, song.Capo.Value);
        var harp = song.Harp?.Value.ToHarmonica();
        return song.Bars.SelectMany(bar => Picked(bar, neck, clock).Concat(Strummed(bar, neck, clock)).Concat(Blown(bar, harp, clock))
            .Concat(bar.Tune.Select(t => At(t.Value.Pitch.Midi, bar, t.Start, t.Length, clock))));
    }

    public static IEnumerable<WrittenNote> Picked(Bar bar, Fretboard neck, SongClock clock) =>
        bar.Picked.Where(p => p.Value.MidiOn(neck) is not null).SelectMany(p => Graced(p.Value, neck)
            .Select(midi => At(midi, bar, p.Start, p.Length, clock)));

    public static IEnumerable<WrittenNote> Strummed(Bar bar, Fretboard neck, SongClock clock) =>
        bar.Strums.Where(s => s.Value != Stroke.Muted).SelectMany(s => ShapeAt(bar, s.Start) is { } shape
            ? Sounding(shape, neck).Select(midi => At(midi, bar, s.Start, s.Length, clock)) : []);

    public static IEnumerable<WrittenNote> Blown(Bar bar, Harmonica? harp, SongClock clock) =>
        from claim in bar.Harp
        let pitch = harp?.FindPitch(claim.Value)
        where pitch is not null
        select At(pitch.Value.Midi, bar, claim.Start, claim.Length, clock);

    /// <summary>The shape that the hand holds at a place of a bar; null where none is known.</summary>
    public static Shape? ShapeAt(Bar bar, Units.Beats place) => bar.Chords.LastOrDefault(c => c.Start <= place)?.Value.Shape;

    /// <summary>The pitches of a shape, from the low string up.</summary>
    /// <param name="except">A string that is left out.</param>
    public static int[] Sounding(Shape shape, Fretboard neck, int? except = null) =>
        [.. Enumerable.Range(0, shape.Frets.Length).Where(s => s != except && shape.Frets[s] is not null).Select(s => neck.MidiAt(s, shape.Frets[s]!.Value))];

    /// <summary>A note's pitch, those that a bend passes, and its grace notes, which start hardly before it.</summary>
    private static IEnumerable<int> Graced(PickedNote note, Fretboard neck)
    {
        var midi = note.MidiOn(neck)!.Value;
        var bent = (int)Math.Ceiling(note.Bend.By.Value / 100 - 0.5);
        return Enumerable.Range(midi - bent, bent + 1).Concat(note.Graces.All().Select(g => neck.MidiAt(note.StringIndex, g.Fret))).Distinct();
    }

    private static WrittenNote At(int midi, Bar bar, Units.Beats start, Units.Beats length, SongClock clock) =>
        new(midi, clock.TimeOf(bar.Number, start).Value, clock.TimeOf(bar.Number, start + length).Value);
}
