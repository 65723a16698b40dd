using System.Collections.Immutable;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Hands;

/// <summary>A change from one shape to another, string by string.</summary>
public sealed record ShapeChange
{
    private ShapeChange(ChordUse from, ChordUse to, ImmutableArray<StringMove> moves, ImmutableArray<int> fingersKept) =>
        (From, To, Moves, FingersKept) = (from, to, moves, fingersKept);

    public ChordUse From { get; }

    public ChordUse To { get; }

    /// <summary>One a string, from the low side.</summary>
    public ImmutableArray<StringMove> Moves { get; }

    /// <summary>Fingers (1 index … 4 little) that press the same string at the same fret in both shapes, with the tip in both or flat in both.</summary>
    public ImmutableArray<int> FingersKept { get; }

    /// <summary>Semitones moved by all strings that sound in both shapes.</summary>
    public int TotalMotion => Moves.Sum(m => Math.Abs(m.Semitones ?? 0));

    /// <summary>Semitones moved by the string that moves most.</summary>
    public int LargestLeap => Moves.Max(m => Math.Abs(m.Semitones ?? 0));

    /// <summary>Strings that keep their note.</summary>
    public int StringsKept => Moves.Count(m => m.IsKept);

    /// <summary>
    /// The least motion in semitones that any voices need between the two chords, octaves apart (D. Tymoczko, "The Geometry of
    /// Musical Chords", Science 313, 2006).
    /// </summary>
    public int LeastMotion => VoiceLeading.Distance(From.Chord, To.Chord);

    /// <summary>Frets that the whole hand slides, up or down: the same strings pressed in the same pattern, the others unchanged; null where it
    /// doesn't.</summary>
    public int? Slide
    {
        get
        {
            var pressed = Moves.Where(m => m.From > 0 && m.To > 0).ToArray();
            var others = Moves.Where(m => !(m.From > 0 && m.To > 0));
            return pressed.Length >= 2 && pressed[0].Semitones != 0 && pressed.All(m => m.Semitones == pressed[0].Semitones) && others.All(m => m.From == m.To)
                ? pressed[0].Semitones
                : null;
        }
    }

    /// <summary>The change between two chords that have shapes on as many strings; null otherwise, and where the shapes are the same.</summary>
    public static ShapeChange? Between(ChordUse from, ChordUse to, Capo capo = default, Hand? hand = null)
    {
        if (from.Shape is not { } before || to.Shape is not { } after || before.Frets.Length != after.Frets.Length
            || before.Frets.SequenceEqual(after.Frets) || from.Chord.IsNone || to.Chord.IsNone)
            return null;
        var moves = Enumerable.Range(0, before.Frets.Length).Select(i => new StringMove(i, before.Frets[i], after.Frets[i]));
        return new(from, to, [.. moves], Kept(before, after, capo, hand));
    }

    private static bool LiesFlat(ShapeFingering fingering, int finger) => fingering.Barres.Any(b => b.Finger == finger);

    private static ImmutableArray<int> Kept(Shape before, Shape after, Capo capo, Hand? hand)
    {
        if (FingeringSolver.Check(before, capo, hand).Fingering is not { } first || FingeringSolver.Check(after, capo, hand).Fingering is not { } second)
            return [];
        return
        [
            .. Enumerable.Range(0, before.Frets.Length)
                .Where(i => before.Frets[i] > 0 && before.Frets[i] == after.Frets[i] && first.Fingers[i] > 0 && first.Fingers[i] == second.Fingers[i])
                .Select(i => first.Fingers[i]).Distinct().Where(f => LiesFlat(first, f) == LiesFlat(second, f)).Order(),
        ];
    }
}
