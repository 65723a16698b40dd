using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Fretting;

namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>Sets of pitches that one hand held at once: those of strums, and, where a chord was picked note by note, those of the whole chord.</summary>
internal static class SoundingTogether
{
    private const int Fewest = 3, Most = 6;
    private const double WeakestShare = 0.25;

    /// <returns>Rising pitches, and how much they say: the root of how often they sounded, at most 3, less when there are many sets.</returns>
    public static ImmutableArray<(int[] Pitches, double Say)> Of(ImmutableArray<HeardNote> notes, ImmutableArray<HeardChord> chords, int most)
    {
        var counted = new Dictionary<string, (int[] Pitches, int Times)>();
        var groups = StruckNotes.Of(notes);
        foreach (var group in groups.Where(g => g.Notes.Length >= Fewest))
            Count([.. group.Strongest(Most, notes).Notes.Select(i => notes[i].Midi)]);
        foreach (var chord in chords.Where(c => !c.Chord.Best.IsNone))
            Count(PickedIn(chord, groups, notes));
        var sets = counted.Values.OrderByDescending(c => c.Times).ThenByDescending(c => c.Pitches.Length).Take(most).ToList();
        return [.. sets.Select(s => (s.Pitches, Math.Min(3, Math.Sqrt(s.Times)) * Math.Min(1, 15.0 / sets.Count)))];

        void Count(int[] pitches)
        {
            var name = string.Join(' ', pitches);
            if (pitches.Length >= Fewest)
                counted[name] = (pitches, counted.GetValueOrDefault(name).Times + 1);
        }
    }

    private static int[] PickedIn(HeardChord chord, List<StruckNotes> groups, ImmutableArray<HeardNote> notes)
    {
        var within = groups.Where(g => g.Time >= chord.Start.Value - 0.05 && g.Time < chord.End.Value - 0.05).ToList();
        if (within.Count == 0 || within.Any(g => g.Notes.Length > Fewest))
            return [];
        var weights = within.SelectMany(g => g.Notes).GroupBy(i => notes[i].Midi).Select(g => (Midi: g.Key, Weight: g.Sum(i => notes[i].Confidence))).ToList();
        var strongest = weights.Max(w => w.Weight);
        return [.. weights.Where(w => w.Weight >= WeakestShare * strongest).OrderByDescending(w => w.Weight).Take(Most).Select(w => w.Midi).Order()];
    }
}
