using System.Collections.Immutable;

namespace Harkbook.Listening.Estimators.Fretting;

/// <summary>Two searches: the second knows from the first where the player usually sounds each pitch.</summary>
internal static class Fretter
{
    /// <param name="onString">What a note costs on a string, whatever else is played.</param>
    public static FretPath Find(ImmutableArray<HeardNote> notes, Neck neck, FretWeights? weights = null, Func<int, int, double>? onString = null,
        CancellationToken ct = default)
    {
        var (groups, judged) = (StruckNotes.Of(notes), weights ?? FretWeights.Usual);
        var search = new FretSearch(neck, judged, statesPerPosition: 4, gripsPerPosition: 6, onString);
        var first = search.Find(notes, groups, null, ct);
        return search.Find(notes, groups, Habit.Of(first, notes, groups, neck, judged), ct);
    }
}
