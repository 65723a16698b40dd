using System.Collections.Immutable;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Instruments.Strings;

/// <summary>
/// A neck in a tuning with a capo: which pitch sounds where. Each string's fret 0 is where it is stopped when no finger
/// presses it: the capo where the capo stops it, else the nut. So a partial capo leaves the free strings counting from the nut.
/// </summary>
public sealed record Fretboard
{
    /// <summary>Frets of the longest neck.</summary>
    public const int MostFrets = 36;

    /// <param name="frets">Frets on the neck, counted from the nut; 20 is common on a steel-string guitar.</param>
    public Fretboard(Tuning tuning, Capo capo = default, int frets = 20)
    {
        if (frets is < 1 or > MostFrets)
            throw new ArgumentOutOfRangeException(nameof(frets), frets, $"A neck has 1 to {MostFrets} frets.");
        if (capo.OnlyStrings.Any(s => s < 0 || s >= tuning.Count))
            throw new ArgumentException($"The capo stops string index {capo.OnlyStrings[^1]}; this tuning has indices 0 to {tuning.Count - 1}.", nameof(capo));
        (Tuning, Capo, Frets) = (tuning, capo, frets);
    }

    public Tuning Tuning { get; }

    public Capo Capo { get; }

    public int Frets { get; }

    /// <summary>The highest fret of a string, counted as shapes count; less than 0 when the capo sits past the neck's end.</summary>
    public int LastFret(int stringIndex) => Frets - Capo.Raises(Checked(stringIndex));

    /// <summary>The fret as counted from the nut, where the finger really stands.</summary>
    public int FromNut(int stringIndex, int fret) => fret + Capo.Raises(Checked(stringIndex));

    /// <summary>The sounding MIDI number; the fret may lie past the neck's end.</summary>
    public int MidiAt(int stringIndex, int fret) =>
        fret >= 0
            ? Tuning.Strings[Checked(stringIndex)].Midi + FromNut(stringIndex, fret)
            : throw new ArgumentOutOfRangeException(nameof(fret), fret, "Frets count from 0, the open or capoed string.");

    /// <summary>
    /// The sounding pitch, spelled near a place on the line of fifths (a key's <see cref="Key.Centre"/>; 2 gives Eb, Bb, F#, C#, G#).
    /// </summary>
    public Pitch PitchAt(int stringIndex, int fret, int centre = 2) => Pitch.FromMidi(MidiAt(stringIndex, fret), centre);

    /// <summary>Every place where a pitch sounds, the high side first, so the lowest fret first on a rising tuning.</summary>
    public ImmutableArray<FretPlace> PlacesOf(Pitch pitch) => PlacesOf(pitch.Midi);

    /// <inheritdoc cref="PlacesOf(Pitch)"/>
    public ImmutableArray<FretPlace> PlacesOf(int midi)
    {
        var places = ImmutableArray.CreateBuilder<FretPlace>();
        for (var i = Tuning.Count - 1; i >= 0; i--)
        {
            var fret = midi - MidiAt(i, 0);
            if (fret >= 0 && fret <= LastFret(i))
                places.Add(new(i, fret));
        }
        return places.ToImmutable();
    }

    private int Checked(int stringIndex) =>
        stringIndex >= 0 && stringIndex < Tuning.Count
            ? stringIndex
            : throw new ArgumentOutOfRangeException(nameof(stringIndex), stringIndex, $"String indices run from 0, the low side, to {Tuning.Count - 1}.");
}
