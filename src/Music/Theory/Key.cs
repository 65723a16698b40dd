using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;

namespace Harkbook.Music.Theory;

/// <summary>A tonic in a mode, as in "D major" or "A mixolydian".</summary>
public sealed record Key(PitchName Tonic, Mode Mode)
{
    /// <summary>The key signature: sharps (positive) or flats (negative).</summary>
    public int Signature => Tonic.Fifths + Mode.Intervals.Sum(i => i.Fifths) / 7 - 2;

    /// <summary>The place on the line of fifths to spell near in this key: the middle of its scale with the usual chromatic notes.</summary>
    public int Centre => Signature + 2;

    /// <summary>The scale's notes from the tonic up.</summary>
    public ImmutableArray<PitchName> Notes => [.. Mode.Intervals.Select(i => Tonic + i)];

    /// <summary>Whether the note, so spelled, is in the scale.</summary>
    public bool Contains(PitchName note) => Mode.Intervals.Any(i => Tonic.Fifths + i.Fifths == note.Fifths);

    /// <summary>Whether every note of the chord, bass included, is in the scale.</summary>
    public bool Contains(Chord chord) => !chord.IsNone && chord.Notes.All(Contains) && Contains(chord.Bass);

    /// <summary>The note's interval above the tonic; its <see cref="Interval.DegreeName"/> is "b6" for C in E major.</summary>
    public Interval DegreeOf(PitchName note) => Interval.Between(Tonic, note);

    /// <summary>The note on a degree (1–7) with an accidental against the major scale on the tonic: (6, −1) in E is C.</summary>
    public PitchName Note(int degree, int alteration = 0) => Tonic + Interval.FromDegree(degree, alteration);

    /// <summary>
    /// The name of a pitch class (0–11) here: the scale's own note, else the usual chromatic one
    /// (b2, b3, #4, b6, b7, and the raised 3, 6 and 7 of minor).
    /// </summary>
    public PitchName Spell(int pitchClass)
    {
        foreach (var interval in Mode.Intervals)
            if ((Tonic + interval).PitchClass == pitchClass)
                return Tonic + interval;
        return PitchName.FromPitchClass(pitchClass, Tonic.Fifths);
    }

    /// <summary>The triad that the scale gives on its n-th note (1–7).</summary>
    public Chord Triad(int degree) => Stacked(degree, 3);

    /// <summary>The seventh chord that the scale gives on its n-th note (1–7).</summary>
    public Chord Seventh(int degree) => Stacked(degree, 4);

    public static bool TryParse([NotNullWhen(true)] string? text, [NotNullWhen(true)] out Key? key)
    {
        key = null;
        var words = text?.Split(' ', StringSplitOptions.RemoveEmptyEntries) ?? [];
        if (words.Length is < 1 or > 2 || !PitchName.TryParse(words[0], out var tonic))
            return false;
        var mode = words.Length == 1 ? Mode.Major : Mode.All.FirstOrDefault(m => m.Name == words[1]);
        key = mode is null ? null : new Key(tonic, mode);
        return key is not null;
    }

    public static Key Parse(string text) =>
        TryParse(text, out var key)
            ? key
            : throw new FormatException($"'{text}' is not a key; write a tonic and a mode, as in 'D major' or 'A dorian'.");

    public override string ToString() => $"{Tonic} {Mode}";

    private Chord Stacked(int degree, int notes)
    {
        var count = Mode.Intervals.Length;
        if (degree < 1 || degree > count)
            throw new ArgumentOutOfRangeException(nameof(degree), degree, $"The scale has degrees 1 to {count}.");
        var root = Mode.Intervals[degree - 1];
        var above = Enumerable.Range(0, notes).Select(n => FromTonic(degree - 1 + 2 * n) - root);
        return Chord.Of(Tonic + root, ChordQuality.Of(above));
    }

    private Interval FromTonic(int place) =>
        Mode.Intervals[place % Mode.Intervals.Length] + Interval.Of(0, place / Mode.Intervals.Length);
}
