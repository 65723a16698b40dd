using Harkbook.Listening.Checking.Weighing;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Proposing.Hands;

/// <summary>
/// What speaks for a note that the fretting hand sounds from the one before on its string: little that strikes, what sounds together with it, and, for a
/// slide, the frets between.
/// </summary>
internal sealed class JoinFeatures(NotePosteriorgram notes, NoiseCurve noise)
{
    /// <summary>A finger reaches so many frets from a sounding note; the note before rings until so near to the next, in seconds.</summary>
    private const int Farthest = 5;

    private const double Rings = 0.1, Longest = 1.5;

    /// <summary>About a note's start, in seconds: where a pick is heard, and where a finger is on its way.</summary>
    private const double Attack = 0.03, OnItsWay = 0.07;

    /// <summary>Null where the note can't come from the one before.</summary>
    public Feature[]? Of(HeardNote before, HeardNote note, int together)
    {
        var frets = note.Place!.Fret - before.Place!.Fret;
        var gap = (note.Onset - before.Onset).Value;
        if (frets == 0 || Math.Abs(frets) > Farthest || gap > Longest || (note.Onset - before.End).Value > Rings)
            return null;
        return
        [
            new("noise", noise.Strongest(note.Onset.Value - Attack, note.Onset.Value + Attack)),
            new("heard", LogOdds.Of(note.Confidence, 0.01)),
            new("louder", note.Strength - before.Strength),
            new("together", Math.Min(3, together - 1)),
            new("down", frets < 0 ? 1 : 0),
            new("size", Math.Abs(frets)),
            new("open", note.Place.Fret == 0 ? 1 : 0),
            new("gap", gap),
            new("between", Math.Abs(frets) < 2 ? 0 : Between(before.Midi, note.Midi, note.Onset.Value)),
        ];
    }

    /// <summary>How surely the pitches between sound while the finger may be on its way, against those just outside (0–1).</summary>
    private double Between(int from, int to, double time)
    {
        var (low, high) = (Math.Min(from, to) + 1, Math.Max(from, to) - 1);
        return Enumerable.Range(low, high - low + 1).Average(midi => Most(midi, time));
    }

    private double Most(int midi, double time)
    {
        var (most, pitch) = (0.0, midi - notes.LowestMidi);
        if (pitch < 0 || pitch >= notes.Pitches || notes.Frames == 0)
            return most;
        for (var f = notes.FrameAt(Units.Seconds.FromSeconds(time - OnItsWay)); f <= notes.FrameAt(Units.Seconds.FromSeconds(time + OnItsWay)); f++)
            most = Math.Max(most, Math.Max(notes.Sounding[f, pitch], notes.Onset[f, pitch]));
        return most;
    }
}
