using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Layers;

/// <summary>Names for pitches that come from an instrument as semitones.</summary>
internal static class NoteSpelling
{
    /// <summary>As the chord spells it where it is a note of the chord, else as the key does.</summary>
    public static Pitch Of(int midi, Chord? chord, Key key)
    {
        var pitchClass = midi % 12;
        foreach (var name in chord is null or { IsNone: true } ? [] : chord.Notes.Add(chord.Bass))
        {
            if (name.PitchClass == pitchClass)
                return Pitch.FromMidi(midi, name);
        }
        return Pitch.FromMidi(midi, key.Spell(pitchClass));
    }
}
