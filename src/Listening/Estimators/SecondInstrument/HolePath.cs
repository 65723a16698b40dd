using System.Collections.Immutable;
using Harkbook.Listening.Reading.Lattices;
using Harkbook.Music.Instruments.Harmonicas;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>
/// Hole and breath for each note of a line on one harmonica, by forward–backward over the ways to play each: easier ways, near
/// holes and few changes of breath are likelier.
/// </summary>
internal sealed class HolePath(Harmonica harp, int position)
{
    private const double BreathChange = 0.35, EachHole = 0.18, AfterRest = 0.8;

    private sealed record Way(HarpNote?[] Notes, double Log);

    public ImmutableArray<HeardLineNote> Place(ImmutableArray<HeardLineNote> notes)
    {
        var groups = BreathGroups.Of(notes);
        if (groups.Count == 0)
            return [];
        var ways = groups.Select(Ways).ToArray();
        var posteriors = new Lattice(new TableModel(
            [.. ways.Select(of => of.Select(w => w.Log).ToArray())],
            g => DenseTransitions.Of(ways[g - 1].Length, ways[g].Length, (a, b) => Change(ways[g - 1][a], ways[g][b], groups[g - 1], groups[g])))).Posteriors();
        return [.. groups.SelectMany((group, g) => Chosen(group, ways[g], posteriors[g])).OrderBy(n => n.Onset).ThenBy(n => n.Midi)];
    }

    private Way[] Ways(HeardLineNote[] group)
    {
        if (group.Length > 1 && BreathGroups.OnOneBreath(harp, group) is { Count: > 0 } together)
            return [.. together.Select(t => new Way([.. t.Cast<HarpNote?>()], t.Sum(n => Math.Log(Chance(n))) / t.Length))];
        if (group.Length > 1)
            return [new([.. group.Select(n => Easiest(n.Midi))], 0)];
        var single = harp.NotesFor(group[0].Midi);
        return single.IsEmpty ? [new([null], 0)] : [.. single.Select(n => new Way([n], Math.Log(Chance(n))))];
    }

    private HarpNote? Easiest(int midi) => harp.NotesFor(midi) is [var first, ..] ? first : null;

    /// <summary>Draw 2 and blow 3 are one pitch: the first is home in second position, the second as likely in first.</summary>
    private double Chance(HarpNote note) =>
        HarpFinder.ChanceOf(note) * (note is { Hole: 3, Breath: Breath.Blow, Bend: 0 } ? position == 2 ? 0.3 : 0.8 : 1);

    private static double Change(Way from, Way to, HeardLineNote[] before, HeardLineNote[] after)
    {
        if (from.Notes[0] is not { } a || to.Notes[0] is not { } b)
            return 0;
        var rest = (after[0].Onset - before[0].End).Value > 0.4;
        var cost = (a.Breath == b.Breath ? 0 : BreathChange) + EachHole * Math.Abs(a.Hole - b.Hole);
        return -cost * (rest ? 1 - AfterRest : 1);
    }

    private static IEnumerable<HeardLineNote> Chosen(HeardLineNote[] group, Way[] ways, double[] posteriors)
    {
        for (var i = 0; i < group.Length; i++)
        {
            var ranked = ways.Select((w, k) => (Note: w.Notes[i], Posterior: posteriors[k]))
                .Where(c => c.Note is not null)
                .GroupBy(c => c.Note!.Value)
                .Select(c => new Candidate<HarpNote>(c.Key, c.Sum(x => x.Posterior)))
                .ToImmutableArray();
            yield return group[i] with { Holes = ranked.IsEmpty ? null : new(ranked) };
        }
    }
}
