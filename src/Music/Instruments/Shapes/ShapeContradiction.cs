using System.Collections.Immutable;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Instruments.Shapes;

/// <summary>
/// Why a shape can't be the chord that it is named for. A shape may leave notes of its chord out; it may not sound others. So it contradicts
/// its name when a string sounds a note that the name doesn't hold, when the root is missing and nothing stands in for it, or when a bass
/// that the name gives behind a slash lies above other notes (docs/decisions/0009-shapes-and-symbols.md).
/// </summary>
/// <param name="Sounds">The likeliest name of what sounds.</param>
/// <param name="Reason">What speaks against the name, in words.</param>
public sealed record ShapeContradiction(Chord Sounds, string Reason)
{
    /// <summary>Null where the shape can be the chord; a shape without a sounding string can be any.</summary>
    public static ShapeContradiction? Of(Shape shape, Tuning tuning, Capo capo, Chord chord)
    {
        var pitches = shape.Pitches(tuning, capo, chord);
        if (pitches.IsEmpty || chord.IsNone || Reasons(pitches, chord).FirstOrDefault() is not { } reason)
            return null;
        return new(ChordNaming.Rank(pitches)[0].Chord, reason);
    }

    private static IEnumerable<string> Reasons(ImmutableArray<Pitch> pitches, Chord chord)
    {
        var foreign = pitches.Order().Select(p => PitchName.FromPitchClass(p.Name.PitchClass)).Distinct().Where(n => !MayHold(chord, n)).ToArray();
        if (foreign.Length > 0)
            yield return foreign.Length == 1 ? $"{foreign[0]} is no note of {chord}"
                : $"{string.Join(", ", foreign[..^1])} and {foreign[^1]} are no notes of {chord}";
        if (!Has(pitches, chord.Root) && !StandsForItsRoot(pitches, chord))
            yield return $"its root {chord.Root} doesn't sound";
        var lowest = pitches.Min().Name;
        if (chord.Bass != chord.Root && lowest.PitchClass != chord.Bass.PitchClass)
            yield return $"its bass is {lowest}, not {chord.Bass}";
    }

    /// <summary>Books differ on the third of an eleventh chord and the ninth and eleventh of a thirteenth chord, so these may sound or not.</summary>
    private static bool MayHold(Chord chord, PitchName note)
    {
        var degrees = chord.Quality.Intervals.Select(i => i.Degree.Degree).ToHashSet();
        var above = Floor.Mod(note.PitchClass - chord.Root.PitchClass, 12);
        return chord.PitchClasses.Contains(note.PitchClass)
            || (above == 4 && degrees.Contains(11) && !degrees.Contains(3))
            || (above is 2 or 5 && degrees.Contains(13));
    }

    /// <summary>Common practice: the root may be left to the bass player where the third, or what is suspended for it, sounds with a
    /// seventh or a note above it.</summary>
    private static bool StandsForItsRoot(ImmutableArray<Pitch> pitches, Chord chord)
    {
        var sounding = chord.Quality.Intervals.Where(i => Has(pitches, chord.Root + i)).Select(i => i.Degree.Degree).ToHashSet();
        return sounding.Overlaps([2, 3, 4]) && sounding.Any(degree => degree > 5);
    }

    private static bool Has(ImmutableArray<Pitch> pitches, PitchName name) => pitches.Any(p => p.Name.PitchClass == name.PitchClass);
}
