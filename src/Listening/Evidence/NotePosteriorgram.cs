using Harkbook.Units;

namespace Harkbook.Listening.Evidence;

/// <summary>
/// What the note network says of every semitone over time: matrices of frames × pitches, values 0–1. Frame f covers the time
/// f·<see cref="Hop"/> ± half a hop; column p is MIDI <see cref="LowestMidi"/> + p, counted from the recording's own reference pitch.
/// </summary>
public sealed class NotePosteriorgram
{
    /// <param name="end">Null where ends weren't listened for.</param>
    /// <param name="level">Null where it wasn't measured.</param>
    public NotePosteriorgram(Seconds hop, int lowestMidi, PosteriorMatrix sounding, PosteriorMatrix onset, PosteriorMatrix? end = null,
        LevelMatrix? level = null)
    {
        var shape = (sounding.Frames, sounding.Pitches);
        if (shape != (onset.Frames, onset.Pitches) || shape != (end?.Frames ?? shape.Frames, end?.Pitches ?? shape.Pitches)
            || shape != (level?.Frames ?? shape.Frames, level?.Pitches ?? shape.Pitches))
            throw new ArgumentException("All matrices need the same shape (frames × pitches).", nameof(onset));
        (Hop, LowestMidi, Sounding, Onset) = (hop, lowestMidi, sounding, onset);
        (End, Level) = (end ?? new(shape.Frames, shape.Pitches), level ?? new(shape.Frames, shape.Pitches));
    }

    /// <summary>Nothing was listened to.</summary>
    public static NotePosteriorgram None { get; } = new(Seconds.FromSeconds(256 / 22_050.0), 36, new(0, 61), new(0, 61));

    public Seconds Hop { get; }

    public int LowestMidi { get; }

    /// <summary>The posterior that each pitch sounds in each frame.</summary>
    public PosteriorMatrix Sounding { get; }

    /// <summary>The posterior that each pitch starts in each frame.</summary>
    public PosteriorMatrix Onset { get; }

    /// <summary>The posterior that each pitch ends in each frame.</summary>
    public PosteriorMatrix End { get; }

    /// <summary>How loud each pitch is: the loudest of its first three partials, 0 at −80 dB and 1 at −20 dB.</summary>
    public LevelMatrix Level { get; }

    public int Frames => Sounding.Frames;

    public int Pitches => Sounding.Pitches;

    public int FrameAt(Seconds time) => Math.Clamp((int)Math.Round(time / Hop), 0, Math.Max(0, Frames - 1));
}
