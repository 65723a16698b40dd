using System.Collections.Immutable;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving.Rows;
using Harkbook.Publishing.Engraving.Shelves;
using Harkbook.Publishing.Engraving.Tabs;

namespace Harkbook.Publishing.Engraving.Sheets;

/// <summary>What stands at a sheet's end and foot: how to read it, corrections, cautions.</summary>
internal static class SheetNotes
{
    private const double Size = 8;

    public static ImmutableArray<string> Footer(Song song)
    {
        const string Rights = "Rest your hands often and stop if it hurts. Printing or sharing a transcription can need the leave of whoever owns the song.";
        return HasHeard(song) ? ["Dots underneath: heard by the program, not yet decided by a person.", Rights] : [Rights];
    }

    /// <summary>Null when there is nothing to note.</summary>
    /// <param name="part">The bars that the sheet shows.</param>
    public static Drawing? Engrave(Song song, Song part, double width)
    {
        var notes = Notes(song, part).ToArray();
        if (notes.Length == 0)
            return null;
        var sketch = new Sketch();
        sketch.Text("Notes", 0, 10, Face.Strong, 11);
        var y = 16.0;
        foreach (var note in notes)
        {
            y += 3;
            foreach (var line in TextWrap.Lines(note, Face.Text, Size, width))
                sketch.Text(line, 0, y += Size * 1.35, Face.Text, Size);
        }
        return sketch.ToDrawing(width, y + 4);
    }

    private static IEnumerable<string> Notes(Song song, Song part)
    {
        if (song.Capo.Value is { Fret: > 0, IsPartial: false } && part.Shapes.Length > 0)
            yield return CapoNames.Of(song) is { HandFirst: true }
                ? "Frets are counted from the capo. Large names are the hand's, as without the capo; small ones below are what sounds."
                : "Frets are counted from the capo. Large names are what sounds; small ones below are the hand's, as without the capo.";
        if (song.Capo.Value.IsPartial)
            yield return "The capo stops only some strings. Diagrams and tab count frets from the nut: a string that the capo stops is open at its fret.";
        if (part.Shapes.Any(s => s.Shape.LastFret is not null && ShapeShelf.Subject(song, s).FingersGuessed))
            yield return "Fingers on pale dots: easiest for a usual hand, not yet decided by a person.";
        foreach (var sign in Signs(part))
            yield return sign;
        if (RaisedStrings(song.Tuning.Value) is { Length: > 0 } raised)
            yield return $"This tuning pulls {string.Join(", ", raised)} above standard pitch. Tighter strings load the neck and can break: keep your eyes "
                + "away while tightening, or tune lower and use a capo.";
        if (part.Bars.Any(Corrections.Touch))
            yield return "* behind a bar's number: corrected, as told here.";
        foreach (var note in Corrections.Of(song, part))
            yield return note;
        if (UndecidedVoice.Of(part) is { Length: > 0 } sections)
            yield return $"Not drawn: the rhythm of syllables that the program heard in {string.Join(", ", sections)} and no person has decided. Write their "
                + "words, or x, without the mark, and they are drawn.";
    }

    private static IEnumerable<string> Signs(Song song)
    {
        var bars = song.Bars.ToArray();
        var chords = new ChordRow(song);
        if (bars.Any(b => !b.Chords.IsEmpty && chords.GoesOn(b, 0)))
            yield return "A grey chord name goes on from the bar before.";
        if (SongRows.FallSilent(song))
            yield return "\U0001D13D silence: what sounded before it ends.";
        if (bars.Any(b => !b.Strums.IsEmpty))
            yield return "Strum: ↓ towards the floor, ↑ towards the ceiling, × muted.";
        if (PickingWords.Of(bars) is { Length: > 0 } picking)
            yield return picking;
        if (bars.Any(b => !b.Tune.IsEmpty))
            yield return "Tune: the names of its notes, a higher note higher; the margin has the lowest and the highest with their octaves (C4 is middle C).";
        if (bars.Any(b => !b.Harp.IsEmpty))
            yield return bars.Any(b => b.Harp.Any(n => n.Value.Slide)) ? "Harp: ↑ blow, ↓ draw, < slide pressed in."
                : "Harp: ↑ blow, ↓ draw, ′ bent down a semitone, o over-bent.";
    }

    private static string[] RaisedStrings(Tuning tuning) =>
        tuning.Count != Tuning.Standard.Count ? []
        : [.. tuning.Strings.Where((p, i) => p.Midi > Tuning.Standard.Strings[i].Midi).Select(PitchText.Of)];

    private static bool HasHeard(Song song) => Standings(song).Any(s => s.Kind == StandingKind.Heard);

    private static IEnumerable<Standing> Standings(Song song) =>
    [
        .. SongFacts.Of(song).Select(f => f.Standing),
        .. song.Shapes.Select(s => s.Standing),
        .. song.Bars.SelectMany(b => (IEnumerable<Standing>)
            [.. b.Chords.Select(c => c.Standing), .. b.Sung.Select(c => c.Standing), .. b.Tune.Select(c => c.Standing), .. b.Harp.Select(c => c.Standing),
                .. b.Picked.Select(c => c.Standing), .. b.Strums.Select(c => c.Standing)]),
    ];
}
