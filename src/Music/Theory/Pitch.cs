using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using Harkbook.Units;

namespace Harkbook.Music.Theory;

/// <summary>A spelled, sounding pitch. C4 is middle C, MIDI 60; the octave number follows the letter (Cb4 is MIDI 59).</summary>
public readonly record struct Pitch : IComparable<Pitch>
{
    private static readonly int[] SemitonesOfLetter = [9, 11, 0, 2, 4, 5, 7];

    private readonly int octaveLessFour;

    private Pitch(PitchName name, int octave)
    {
        Name = name;
        octaveLessFour = octave - 4;
    }

    public PitchName Name { get; }

    public int Octave => octaveLessFour + 4;

    /// <summary>MIDI note number; 60 is C4.</summary>
    public int Midi => SemitonesOfLetter[Name.Letter - 'A'] + Name.Alteration + 12 * (Octave + 1);

    public static Pitch Of(PitchName name, int octave) =>
        octave is >= -2 and <= 12
            ? new(name, octave)
            : throw new ArgumentOutOfRangeException(nameof(octave), octave, "Octaves run from -2 to 12.");

    /// <summary>The pitch of a MIDI number (0–127), spelled near a place on the line of fifths (see <see cref="PitchName.FromPitchClass"/>).</summary>
    public static Pitch FromMidi(int midi, int centre = 2) =>
        FromMidi(midi, PitchName.FromPitchClass(Floor.Mod(midi, 12), centre));

    /// <summary>The pitch of a MIDI number under a given name, which must be of the same pitch class.</summary>
    public static Pitch FromMidi(int midi, PitchName name)
    {
        if (Floor.Mod(midi, 12) != name.PitchClass)
            throw new ArgumentException($"{name} does not name MIDI {midi}.", nameof(name));
        var natural = midi - name.Alteration - SemitonesOfLetter[name.Letter - 'A'];
        return Of(name, Floor.Div(natural, 12) - 1);
    }

    /// <summary>Equal temperament about a reference for A4.</summary>
    public Hertz Frequency(Hertz a4) => a4.Raised(Cents.FromCents(100.0 * (Midi - 69)));

    public static Pitch operator +(Pitch pitch, Interval interval)
    {
        var name = pitch.Name + interval;
        return FromMidi(pitch.Midi + interval.Semitones, name);
    }

    public static Pitch operator -(Pitch pitch, Interval interval)
    {
        var name = pitch.Name - interval;
        return FromMidi(pitch.Midi - interval.Semitones, name);
    }

    public static bool TryParse([NotNullWhen(true)] string? text, out Pitch pitch)
    {
        pitch = default;
        var digits = text?.IndexOfAny(['-', '0', '1', '2', '3', '4', '5', '6', '7', '8', '9']) ?? -1;
        if (digits < 1
            || !PitchName.TryParse(text![..digits], out var name)
            || !int.TryParse(text.AsSpan(digits), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var octave)
            || octave is < -2 or > 12)
            return false;
        pitch = new(name, octave);
        return true;
    }

    /// <summary>Reads "F#3", "Bb2", "C4".</summary>
    public static Pitch Parse(string text) =>
        TryParse(text, out var pitch)
            ? pitch
            : throw new FormatException($"'{text}' is not a pitch; write a note name and an octave, as in F#3 (C4 is middle C).");

    public int CompareTo(Pitch other) => Midi.CompareTo(other.Midi);

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Name}{Octave}");
}
