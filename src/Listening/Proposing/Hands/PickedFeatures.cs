using Harkbook.Listening.Checking.Weighing;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Proposing.Hands;

/// <summary>What speaks for a picked note being right: that it was heard, on that string, and not as an overtone.</summary>
internal static class PickedFeatures
{
    /// <param name="usual">How strong half of the guitar's notes are at the most.</param>
    public static Feature[] Of(HeardNote note, Strike strike, double usual) =>
    [
        new("heard", LogOdds.Of(note.Confidence, 0.01)),
        new("string", LogOdds.Of(note.Place!.Confidence, 0.01)),
        new("loud", note.Strength - usual),
        new("overtone", strike.Notes.Any(n => Overtones.Has(note.Midi - n.Midi) && n.Strength > note.Strength) ? 1 : 0),
        new("length", Math.Min(1, (note.End - note.Onset).Value)),
    ];
}
