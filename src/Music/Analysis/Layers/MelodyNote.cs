using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Layers;

/// <summary>A note of a melody, or the part of one that sounds over one chord.</summary>
/// <param name="Place">Where it sounds.</param>
/// <param name="Start">Felt beats from the song's start.</param>
/// <param name="End">On the same count.</param>
/// <param name="IsTied">Whether it goes on from the part before, under another chord.</param>
public sealed record MelodyNote(SongPlace Place, Beats Start, Beats End, LayerNote Note, Chord Chord, bool IsTied)
{
    public int Midi => Note.Pitch.Midi;

    public bool IsChordTone => Chord.PitchClasses.Contains(Note.Pitch.Name.PitchClass);

    /// <summary>The degree above the chord's root.</summary>
    public Interval Degree => UpperStructure.Degree(Chord, Note.Pitch.Name.PitchClass);
}
