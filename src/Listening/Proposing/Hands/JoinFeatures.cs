using Harkbook.Listening.Checking.Weighing;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Proposing.Hands;

/// <summary>
/// What speaks for a note that the fretting hand sounds from the one before on its string: little that strikes, what sounds together with it, and, for a
/// slide, the frets between.
/// </summary>
internal sealed class JoinFeatures(NotePosteriorgram notes, NoiseCurve noise)
{
    /// <summary>A note comes from no farther away, in semitones.</summary>
    private const int Farthest = 5;

    /// <summary>The note before ends about so near to the next one's start, and started no longer ago, in seconds.</summary>
    private const double Ends = 0.12, Longest = 1.5;

    /// <summary>About a note's start, in seconds: where a pick is heard, and where a finger is on its way.</summary>
    private const double Attack = 0.03, OnItsWay = 0.07;

    /// <summary>The note that another may come from: near in pitch, cut off where it starts; the last of them, one on its own string before others.</summary>
    /// <param name="earlier">By onset.</param>
    public static HeardNote? Before(IEnumerable<HeardNote> earlier, HeardNote note) =>
        earlier.Where(b => Math.Abs(b.Midi - note.Midi) is > 0 and <= Farthest && Math.Abs((b.End - note.Onset).Value) <= Ends
                && (note.Onset - b.Onset).Value is > 0.04 and <= Longest && b.Place!.Fret + note.Midi - b.Midi >= 0)
            .OrderBy(b => b.Place!.StringIndex == note.Place!.StringIndex).ThenBy(b => b.Onset).LastOrDefault();

    public Feature[] Of(HeardNote before, HeardNote note, int together)
    {
        var frets = note.Midi - before.Midi;
        return
        [
            new("noise", noise.Strongest(note.Onset.Value - Attack, note.Onset.Value + Attack)),
            new("heard", LogOdds.Of(note.Confidence, 0.01)),
            new("louder", note.Strength - before.Strength),
            new("together", Math.Min(3, together - 1)),
            new("down", frets < 0 ? 1 : 0),
            new("size", Math.Abs(frets)),
            new("open", before.Place!.Fret + frets == 0 ? 1 : 0),
            new("gap", (note.Onset - before.Onset).Value),
            new("cut", Math.Abs((before.End - note.Onset).Value)),
            new("string", note.Place!.StringIndex == before.Place.StringIndex ? 1 : 0),
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
