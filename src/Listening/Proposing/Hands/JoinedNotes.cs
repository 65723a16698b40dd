using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Proposing.Hands;

/// <summary>A note, on the string on which it is sounded, and how; what speaks for its coming from another, null where it can't.</summary>
internal sealed record JoinedNote(HeardNote Note, Attack Attack, Feature[]? Join);

/// <summary>
/// Says of each note whether it is picked, or hammered on, pulled off or slid to from another; then it lies on that one's string. Strikes are to be asked
/// for in order.
/// </summary>
internal sealed class JoinedNotes(PlayingModel model, JoinFeatures features, JoinReach reach)
{
    /// <summary>So many notes back one may come from another.</summary>
    private const int Back = 12;

    private readonly Queue<HeardNote> earlier = new();

    public List<JoinedNote> Of(Strike strike)
    {
        var notes = strike.Notes.Select(n => Of(n, strike.Notes.Length)).ToList();
        foreach (var note in notes)
            earlier.Enqueue(note.Note);
        while (earlier.Count > Back)
            earlier.Dequeue();
        return notes;
    }

    private JoinedNote Of(HeardNote note, int together)
    {
        if (JoinFeatures.Before(earlier, note) is not { } before)
            return new(note, Attack.Picked, null);
        var join = features.Of(before, note, together);
        var place = note.Place! with { StringIndex = before.Place!.StringIndex, Fret = before.Place.Fret + note.Midi - before.Midi };
        var reached = reach.Covers(place.StringIndex, before.Place.Fret, place.Fret);
        var (joined, slid) = (reached ? model.Joined.LogOdds(join) : double.NegativeInfinity, model.Slid.LogOdds(join));
        if (Math.Max(joined, slid) <= 0)
            return new(note, Attack.Picked, join);
        return new(note with { Place = place }, slid > joined ? Attack.Slid : note.Midi > before.Midi ? Attack.HammeredOn : Attack.PulledOff, join);
    }
}
