using System.Collections.Immutable;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Instruments.Harmonicas;

/// <summary>
/// Ranks harmonicas for the notes of a tune: first by what the notes ask of the player, then by changes of breath, then by how far
/// the mouth moves.
/// </summary>
public static class HarpChooser
{
    private const double NotThere = 3;

    /// <summary>The twelve usual Richter harmonicas, the best first. One entry in <paramref name="pitches"/> a sounded note.</summary>
    public static ImmutableArray<HarpFit> Rank(IEnumerable<Pitch> pitches) =>
        Rank(pitches, Harmonica.UsualKeys.Select(key => Harmonica.Richter(key)));

    /// <summary>Ranks only the given harmonicas; equals keep their order.</summary>
    public static ImmutableArray<HarpFit> Rank(IEnumerable<Pitch> pitches, IEnumerable<Harmonica> harps) =>
        Rank(pitches.Select(p => ImmutableArray.Create(p)), harps);

    /// <summary>As above for a tune with chords: each entry holds what sounds at once, one pitch or more.</summary>
    public static ImmutableArray<HarpFit> Rank(IEnumerable<ImmutableArray<Pitch>> tune, IEnumerable<Harmonica> harps)
    {
        var sounded = tune.Where(t => !t.IsEmpty).ToImmutableArray();
        return [.. harps.Select(h => Weigh(h, sounded)).OrderBy(f => Math.Round(f.Cost, 9)).ThenBy(f => f.BreathChanges).ThenBy(f => f.HolesMoved)];
    }

    private static HarpFit Weigh(Harmonica harp, ImmutableArray<ImmutableArray<Pitch>> sounded)
    {
        var ways = new HarpPath(harp).Find(sounded);
        var costs = sounded.Zip(ways, (pitches, way) => way.IsEmpty ? pitches.Length * NotThere : way.Sum(HarpPath.CostOf)).Sum();
        var unplayed = sounded.Zip(ways).Where(p => p.Second.IsEmpty).Select(p => p.First).ToArray();
        return new(harp, sounded.IsEmpty ? 0 : costs / sounded.Sum(s => s.Length), ways)
        {
            Unreachable = [.. unplayed.SelectMany(pitches => pitches).Where(p => harp.NotesFor(p).IsEmpty).Distinct()],
            NotTogether = unplayed.Count(pitches => pitches.All(p => !harp.NotesFor(p).IsEmpty)),
        };
    }
}
