using System.Collections.Immutable;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Instruments.Harmonicas;

/// <summary>
/// Chooses, of all ways to play a tune's notes on one harmonica, those that ask least: easy notes first, then few changes of
/// breath, then short ways between holes. The weights are our judgement of how hard each is, not a published scale.
/// </summary>
internal sealed class HarpPath(Harmonica harp)
{
    private const double SlideIn = 0.1;
    private const double FirstSemitone = 0.3;
    private const double EachMoreSemitone = 0.15;
    private const double OverBend = 1.2;

    // Small enough that a bend is never taken to spare a change of breath.
    private const double BreathChange = 0.04;
    private const double EachHole = 0.01;

    /// <summary>A mouth and tongue cover as many holes.</summary>
    private const int WidestMouth = 5;

    private sealed record Step(ImmutableArray<HarpNote> Way, double Cost, Step? Before);

    public static double CostOf(HarpNote note) => note.Technique switch
    {
        HarpTechnique.Plain => 0,
        HarpTechnique.Slide => SlideIn,
        HarpTechnique.OverBent => OverBend,
        _ => FirstSemitone + EachMoreSemitone * (-note.Bend - 1),
    };

    /// <summary>One way for each of the tune's notes or chords; empty where there is none.</summary>
    public ImmutableArray<ImmutableArray<HarpNote>> Find(IEnumerable<ImmutableArray<Pitch>> tune)
    {
        Step[] ends = [new([], 0, null)];
        foreach (var together in tune)
        {
            var ways = WaysFor(together);
            ends = [.. (ways.Count == 0 ? [[]] : ways).Select(way => Reach(ends, way))];
        }
        var found = new List<ImmutableArray<HarpNote>>();
        for (var step = ends.MinBy(e => e.Cost); step!.Before is not null; step = step.Before)
            found.Add(step.Way);
        return [.. Enumerable.Reverse(found)];
    }

    /// <summary>Every way to sound some pitches at once; none when two breaths or too wide a mouth would be needed.</summary>
    public IReadOnlyList<ImmutableArray<HarpNote>> WaysFor(ImmutableArray<Pitch> together) =>
        together.Length == 1
            ? [.. harp.NotesFor(together[0]).Select(n => ImmutableArray.Create(n))]
            : [.. from breath in Enum.GetValues<Breath>() from slide in new[] { false, true } let way = OnOneBreath(together, breath,
                slide) where way.Length > 0 select way];

    private ImmutableArray<HarpNote> OnOneBreath(ImmutableArray<Pitch> together, Breath breath, bool slide)
    {
        var notes = together
            .Select(p => harp.NotesFor(p).Where(n => n.Breath == breath && n.Bend == 0 && n.Slide == slide).Cast<HarpNote?>().FirstOrDefault())
            .OfType<HarpNote>().OrderBy(n => n.Hole).ToImmutableArray();
        return notes.Length == together.Length && notes[^1].Hole - notes[0].Hole < WidestMouth ? notes : [];
    }

    private static Step Reach(Step[] ends, ImmutableArray<HarpNote> way)
    {
        var before = ends.MinBy(e => e.Cost + Change(e, way))!;
        return new(way, before.Cost + Change(before, way) + way.Sum(CostOf), before);
    }

    private static double Change(Step from, ImmutableArray<HarpNote> to)
    {
        if (from.Way is not [var a, ..] || to is not [var b, ..])
            return 0;
        return (a.Breath == b.Breath ? 0 : BreathChange) + EachHole * Math.Abs(a.Hole - b.Hole);
    }
}
