using System.Collections.Immutable;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Rhythm;

/// <summary>
/// Syncopation after H. C. Longuet-Higgins and C. Lee, "The rhythmic interpretation of monophonic music", Music Perception
/// 1(4), 1984: each rest or tied place that is stronger than the note sounded last before it counts by how much stronger.
/// Their rule looks on for ever; here a note counts against places less than a bar after it, so that silence between
/// phrases is no syncopation.
/// </summary>
public static class SyncopationRule
{
    /// <summary>Inside one bar: nothing before it counts.</summary>
    public static int InBar(Meter meter, IEnumerable<Beats> onsets) => Of([(meter, [.. onsets])]).Sum(s => s.Strength);

    /// <summary>Of a bar that is repeated: its first places count against its own last note.</summary>
    public static int Repeated(Meter meter, IEnumerable<Beats> onsets)
    {
        ImmutableArray<Beats> bar = [.. onsets];
        return Of([(meter, bar), (meter, bar)]).Where(s => s.Bar == 2).Sum(s => s.Strength);
    }

    /// <summary>Over bars that follow each other.</summary>
    public static ImmutableArray<Syncopation> Of(IReadOnlyList<(Meter Meter, ImmutableArray<Beats> Onsets)> bars)
    {
        var found = ImmutableArray.CreateBuilder<Syncopation>();
        (int Bar, RhythmUnit Unit, Beats At)? last = null;
        var start = Beats.Zero;
        for (var i = 0; i < bars.Count; i++)
        {
            foreach (var unit in MetricTree.Units(bars[i].Meter, bars[i].Onsets))
            {
                var at = start + unit.Start;
                if (unit.Sounds)
                    last = (i + 1, unit, at);
                else if (last is { } note && unit.Weight > note.Unit.Weight && at - note.At < bars[i].Meter.BarLength)
                    found.Add(new(i + 1, unit.Start, note.Bar, note.Unit.Start, unit.Weight - note.Unit.Weight));
            }
            start += bars[i].Meter.BarLength;
        }
        return found.ToImmutable();
    }
}
