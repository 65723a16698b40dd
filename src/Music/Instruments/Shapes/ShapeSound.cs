using System.Collections.Immutable;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Instruments.Shapes;

/// <summary>What a shape sounds in a tuning under a capo.</summary>
public static class ShapeSound
{
    /// <summary>Sounding pitches of the strings that are not muted, from the low side, spelled near a place on the line of fifths.</summary>
    public static ImmutableArray<Pitch> Pitches(this Shape shape, Tuning tuning, Capo capo = default, int centre = 2) =>
        [.. shape.PitchOfEachString(tuning, capo, centre).Where(p => p is not null).Select(p => p!.Value)];

    /// <summary>As above, but notes of the chord take the chord's spelling, the rest one near its root.</summary>
    public static ImmutableArray<Pitch> Pitches(this Shape shape, Tuning tuning, Capo capo, Chord chord) =>
        [.. shape.Pitches(tuning, capo, chord.IsNone ? 2 : chord.Root.Fifths + 1).Select(p => Respelled(p, chord))];

    /// <summary>One entry a string, null where it is muted.</summary>
    public static ImmutableArray<Pitch?> PitchOfEachString(this Shape shape, Tuning tuning, Capo capo = default, int centre = 2)
    {
        RequireStrings(shape, tuning);
        var board = new Fretboard(tuning, capo);
        return [.. shape.Frets.Select((fret, i) => fret is { } f ? board.PitchAt(i, f, centre) : (Pitch?)null)];
    }

    /// <summary>The lowest sounding pitch, whichever string it is on; null when every string is muted.</summary>
    public static Pitch? Bass(this Shape shape, Tuning tuning, Capo capo = default, int centre = 2)
    {
        var pitches = shape.Pitches(tuning, capo, centre);
        return pitches.IsEmpty ? null : pitches.MinBy(p => p.Midi);
    }

    /// <summary>Sounding pitch classes, 0 (C) to 11, rising, each once.</summary>
    public static ImmutableArray<int> PitchClasses(this Shape shape, Tuning tuning, Capo capo = default) =>
        [.. shape.Pitches(tuning, capo).Select(p => p.Name.PitchClass).Distinct().Order()];

    /// <summary>Sounding note names from the bass up in order of pitch, each once.</summary>
    public static ImmutableArray<PitchName> NoteNames(this Shape shape, Tuning tuning, Capo capo = default, int centre = 2) =>
        [.. shape.Pitches(tuning, capo, centre).OrderBy(p => p.Midi).Select(p => p.Name).Distinct()];

    internal static void RequireStrings(Shape shape, Tuning tuning)
    {
        if (shape.Frets.Length != tuning.Count)
            throw new ArgumentException(
                $"Shape {shape} has {shape.Frets.Length} strings and the tuning {tuning} has {tuning.Count}; shapes belong to a tuning of as many strings.",
                nameof(shape));
    }

    private static Pitch Respelled(Pitch pitch, Chord chord)
    {
        foreach (var name in chord.Notes.Add(chord.Bass))
        {
            if (!chord.IsNone && name.PitchClass == pitch.Name.PitchClass)
                return Pitch.FromMidi(pitch.Midi, name);
        }
        return pitch;
    }
}
