using System.Collections.Immutable;
using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Proposing.Hands;

/// <summary>
/// Puts notes on the strings of the shape that the hand holds: where most of what is struck in a bar lies in the bar's shapes, a pitch that the shape
/// sounds is taken to be played in it. A shape rests on all of a song's notes, a note's own string on its neighbours only.
/// </summary>
internal sealed class HeldPlaces(HeardTuning guitar, BeatAxis axis, ImmutableArray<Bar> chords)
{
    /// <summary>So much of a bar's notes must lie in its shapes.</summary>
    private const double Most = 0.6;

    /// <summary>A strike so much before a change of shape may be the new one's, in beats.</summary>
    private const double Early = 0.1;

    private readonly Fretboard neck = new(guitar.Tuning, guitar.Capo);

    public IEnumerable<Strike> Of(IGrouping<int, Strike> bar)
    {
        var notes = bar.SelectMany(s => s.Notes.Select(n => IsHeld(ShapeAt(s), n.Midi))).ToArray();
        return notes.Count(held => held) < Most * notes.Length ? bar : bar.Select(s => s with { Notes = Held(s.Notes, ShapeAt(s)) });
    }

    private ImmutableArray<HeardNote> Held(ImmutableArray<HeardNote> notes, Shape? shape)
    {
        var taken = new HashSet<int>();
        return [.. notes.Select(n => Place(n)).OrderBy(n => n.Midi)];

        HeardNote Place(HeardNote note)
        {
            var strings = Strings(shape, note.Midi).Where(s => !taken.Contains(s)).OrderBy(s => Math.Abs(s - note.Place!.StringIndex)).ToArray();
            var placed = strings.Length == 0 ? note : note with { Place = new(strings[0], shape!.Frets[strings[0]]!.Value, note.Place!.Confidence) };
            taken.Add(placed.Place!.StringIndex);
            return placed;
        }
    }

    private bool IsHeld(Shape? shape, int midi) => Strings(shape, midi).Any();

    private IEnumerable<int> Strings(Shape? shape, int midi) => shape is null ? []
        : Enumerable.Range(0, shape.Frets.Length).Where(s => shape.Frets[s] is { } fret && neck.MidiAt(s, fret) == midi);

    private Shape? ShapeAt(Strike strike) => SongNotes.ShapeAt(chords[strike.Bar],
        Beats.Fraction((int)Math.Round(100 * Math.Max(0, strike.Place + Early - axis.Bars[strike.Bar].FirstBeat)), 100));
}
