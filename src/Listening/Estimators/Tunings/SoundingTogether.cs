using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Fretting;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>
/// Sets of pitches that one hand probably held at once: for each chord, those that sounded often while it did, over all its spans. What was misheard
/// now and then drops out. Without chords, the most frequent strums.
/// </summary>
internal static class SoundingTogether
{
    private const int Fewest = 3, Most = 6;
    private const double Often = 0.3, ChordsThatSayAll = 8;

    /// <returns>Rising pitches, and how much they say: the root of how often they sounded, at most 3, less when there are many sets.</returns>
    public static ImmutableArray<(int[] Pitches, double Say)> Of(ImmutableArray<HeardNote> notes, ImmutableArray<HeardChord> chords, int most)
    {
        var groups = StruckNotes.Of(notes);
        var sets = chords.All(c => c.Chord.Best.IsNone) ? OfStrums(groups, notes) : OfChords(groups, notes, chords);
        var kept = sets.Where(s => s.Pitches.Length >= Fewest).OrderByDescending(s => s.Times).Take(most).ToList();
        return [.. kept.Select(s => (s.Pitches, Math.Min(3, Math.Sqrt(s.Times)) * Math.Min(1, ChordsThatSayAll / kept.Count)))];
    }

    private static IEnumerable<(int[] Pitches, int Times)> OfStrums(List<StruckNotes> groups, ImmutableArray<HeardNote> notes) =>
        groups.Where(g => g.Notes.Length >= Fewest)
            .Select(g => g.Strongest(Most, notes).Notes.Select(i => notes[i].Midi).Distinct().ToArray())
            .GroupBy(pitches => string.Join(' ', pitches))
            .Select(g => (g.First(), g.Count()));

    private static IEnumerable<(int[] Pitches, int Times)> OfChords(List<StruckNotes> groups, ImmutableArray<HeardNote> notes, ImmutableArray<HeardChord> chords)
    {
        var byChord = new Dictionary<Chord, (double[] Weights, int Times)>();
        var next = 0;
        foreach (var chord in chords.Where(c => !c.Chord.Best.IsNone))
        {
            var (weights, times) = byChord.TryGetValue(chord.Chord.Best, out var known) ? known : (new double[128], 0);
            byChord[chord.Chord.Best] = (weights, times + 1);
            while (next < groups.Count && groups[next].Time < chord.Start.Value - Early)
                next++;
            for (; next < groups.Count && groups[next].Time < chord.End.Value - Early; next++)
            {
                foreach (var note in groups[next].Notes)
                    weights[notes[note].Midi & 127] += notes[note].Confidence;
            }
        }
        return byChord.Values.Select(c => (Pitches(c.Weights), c.Times));
    }

    private const double Early = 0.04;

    private static int[] Pitches(double[] weights)
    {
        var most = weights.Max();
        return [.. Enumerable.Range(0, 128).Where(m => most > 0 && weights[m] >= Often * most).OrderByDescending(m => weights[m]).Take(Most).Order()];
    }
}
