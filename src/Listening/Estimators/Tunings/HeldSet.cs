using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Fretting;

namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>Different sets of pitches that a hand held at once, and how much each says.</summary>
/// <param name="Pitches">Rising, each once.</param>
/// <param name="Classes">By pitch class: whether one of them is in it.</param>
internal sealed record HeldSet(int[] Pitches, bool[] Classes, double Say)
{
    /// <summary>By pitch: how likely it is misheard.</summary>
    public double[] Strays { get; } = ShapeModel.Strays(Pitches);

    private const int MostPitches = 7;
    private const double MostSay = 2, MostOfAll = 25, Rang = 0.1, LongestRing = 3;

    /// <summary>What was struck together, three notes or more.</summary>
    public static ImmutableArray<HeldSet> Struck(ImmutableArray<HeardNote> notes, IReadOnlyList<StruckNotes> groups, int most) =>
        Of(groups.Where(g => g.Notes.Length >= 3).Select(g => g.Notes.AsEnumerable()), notes, most);

    /// <summary>What sounded together whenever something was struck: the new notes and those that rang on.</summary>
    public static ImmutableArray<HeldSet> Ringing(ImmutableArray<HeardNote> notes, IReadOnlyList<StruckNotes> groups, int most) =>
        Of(groups.Select(g => g.Notes.Concat(RungOn(notes, g))).Where(n => n.Skip(1).Any()), notes, most);

    /// <summary>By pitch: how likely it is misheard. Listening hears octaves and twelfths above what sounds.</summary>
    public static double[] StraysAmong(int[] pitches, double stray, double overtone) =>
        [.. pitches.Select((p, i) => pitches.Take(i).Any(low => p - low is 12 or 19 or 24) ? overtone : stray)];

    private static IEnumerable<int> RungOn(ImmutableArray<HeardNote> notes, StruckNotes group)
    {
        for (var i = group.Notes.Min() - 1; i >= 0 && notes[i].Onset.Value > group.Time - LongestRing; i--)
        {
            if (notes[i].End.Value > group.Time + Rang && notes[i].Onset.Value < group.Time - 0.05)
                yield return i;
        }
    }

    private static ImmutableArray<HeldSet> Of(IEnumerable<IEnumerable<int>> sets, ImmutableArray<HeardNote> notes, int most)
    {
        var counted = sets
            .Select(set => set.OrderByDescending(i => notes[i].Confidence).Select(i => notes[i].Midi).Distinct().Take(MostPitches).Order().ToArray())
            .GroupBy(pitches => string.Join(' ', pitches))
            .Select(g => (Pitches: g.First(), Say: Math.Min(MostSay, Math.Sqrt(g.Count()))))
            .OrderByDescending(s => s.Say).Take(most).ToArray();
        var share = Math.Min(1, MostOfAll / Math.Max(1e-9, counted.Sum(c => c.Say)));
        return [.. counted.Select(c => new HeldSet(c.Pitches, [.. Enumerable.Range(0, 12).Select(pc => c.Pitches.Any(p => p % 12 == pc))], c.Say * share))];
    }
}
