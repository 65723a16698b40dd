using Harkbook.Units;

namespace Harkbook.Listening;

/// <summary>
/// Posterior-like strength of every semitone over time: two matrices of frames × pitches, values 0–1.
/// Frame f covers the time f·<see cref="Hop"/> ± half a hop; column p is MIDI <see cref="LowestMidi"/> + p,
/// counted from the recording's own reference pitch.
/// </summary>
public sealed class NotePosteriorgram
{
    public NotePosteriorgram(Seconds hop, int lowestMidi, PosteriorMatrix sounding, PosteriorMatrix onset)
    {
        if ((sounding.Frames, sounding.Pitches) != (onset.Frames, onset.Pitches))
            throw new ArgumentException("Both matrices need the same shape (frames × pitches).", nameof(onset));
        Hop = hop;
        LowestMidi = lowestMidi;
        Sounding = sounding;
        Onset = onset;
    }

    public Seconds Hop { get; }

    public int LowestMidi { get; }

    /// <summary>How surely each pitch sounds in each frame.</summary>
    public PosteriorMatrix Sounding { get; }

    /// <summary>How surely each pitch starts in each frame.</summary>
    public PosteriorMatrix Onset { get; }

    public int Frames => Sounding.Frames;

    public int Pitches => Sounding.Pitches;

    public int FrameAt(Seconds time) => Math.Clamp((int)Math.Round(time / Hop), 0, Math.Max(0, Frames - 1));
}
