using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Fretting;

namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>A note that ends just as a single other one starts: a string holds one note at a time, so both may be one string's.</summary>
/// <param name="Say">How much it says: the root of how often it was heard, at most 2, less where there are many.</param>
internal sealed record CutShort(int First, int Second, double Say)
{
    private const double Close = 0.03, MostSay = 2, MostOfAll = 12;
    private const int Widest = 12, Back = 24;

    public static ImmutableArray<CutShort> Of(ImmutableArray<HeardNote> notes, IReadOnlyList<StruckNotes> groups)
    {
        var counted = groups.Where(g => g.Notes.Length == 1).SelectMany(g => Pair(notes, g.Notes[0])).GroupBy(p => p)
            .Select(g => new CutShort(g.Key.First, g.Key.Second, Math.Min(MostSay, Math.Sqrt(g.Count())))).ToArray();
        var share = Math.Min(1, MostOfAll / Math.Max(1e-9, counted.Sum(c => c.Say)));
        return [.. counted.Select(c => c with { Say = c.Say * share })];
    }

    private static IEnumerable<(int First, int Second)> Pair(ImmutableArray<HeardNote> notes, int second)
    {
        var ended = Enumerable.Range(Math.Max(0, second - Back), Math.Min(second, Back))
            .Where(i => Math.Abs((notes[i].End - notes[second].Onset).Value) < Close && notes[i].Midi != notes[second].Midi).ToArray();
        if (ended is [var first] && Math.Abs(notes[first].Midi - notes[second].Midi) <= Widest)
            yield return (notes[first].Midi, notes[second].Midi);
    }
}
