using Harkbook.Listening.Checking.Weighing;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Proposing.Hands;

/// <summary>What speaks for a picked note being right: that it was heard, on that string, at that place of the grid, and not as an overtone.</summary>
internal static class PickedFeatures
{
    /// <summary>No deviation from the grid counts for more than this, in deviations.</summary>
    private const double Farthest = 4;

    /// <param name="off">How far from its place, in usual deviations.</param>
    public static Feature[] Of(HeardNote note, Strike strike, double off, double strength) =>
    [
        new("heard", LogOdds.Of(note.Confidence, 0.01)),
        new("string", LogOdds.Of(note.Place!.Confidence, 0.01)),
        new("off", Math.Min(Farthest, Math.Abs(off))),
        new("loud", note.Strength - strength),
        new("overtone", strike.Notes.Any(n => Overtones.Has(note.Midi - n.Midi) && n.Strength > note.Strength) ? 1 : 0),
        new("length", Math.Min(1, (note.End - note.Onset).Value)),
    ];
}
