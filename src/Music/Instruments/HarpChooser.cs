using System.Collections.Immutable;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Instruments;

/// <summary>How well a harmonica suits some pitches.</summary>
/// <param name="Cost">0 when every note is plain; the mean over the notes of what each asks.</param>
/// <param name="Bent">How many of the notes need a bend; the same pitch twice counts twice.</param>
/// <param name="OverBent">How many need an over-bend.</param>
/// <param name="Unreachable">Pitches that this harmonica hasn't got, each once.</param>
public sealed record HarpFit(Harmonica Harp, double Cost, int Plain, int Bent, int OverBent, ImmutableArray<Pitch> Unreachable);

/// <summary>
/// Ranks harmonicas for the notes of a tune. The weights are our judgement of how hard each technique is, not a published scale.
/// </summary>
public static class HarpChooser
{
    private const double FirstSemitone = 0.3;
    private const double EachMoreSemitone = 0.15;
    private const double OverBend = 1.2;
    private const double NotThere = 3;

    /// <summary>The twelve usual Richter harmonicas, the best first. One entry in <paramref name="pitches"/> a sounded note.</summary>
    public static ImmutableArray<HarpFit> Rank(IEnumerable<Pitch> pitches) =>
        Rank(pitches, Harmonica.UsualKeys.Select(key => Harmonica.Richter(key)));

    /// <summary>Ranks only the given harmonicas; equals keep their order.</summary>
    public static ImmutableArray<HarpFit> Rank(IEnumerable<Pitch> pitches, IEnumerable<Harmonica> harps)
    {
        var sounded = pitches.ToImmutableArray();
        return [.. harps.Select(h => Weigh(h, sounded)).OrderBy(f => f.Cost)];
    }

    private static HarpFit Weigh(Harmonica harp, ImmutableArray<Pitch> sounded)
    {
        var easiest = sounded.Select(p => harp.NotesFor(p) is [var first, ..] ? first : (HarpNote?)null).ToImmutableArray();
        var missing = sounded.Where((_, i) => easiest[i] is null).Distinct();
        return new(
            harp,
            easiest.Select(CostOf).DefaultIfEmpty().Average(),
            easiest.Count(n => n?.Technique == HarpTechnique.Plain),
            easiest.Count(n => n?.Technique == HarpTechnique.Bent),
            easiest.Count(n => n?.Technique == HarpTechnique.OverBent),
            [.. missing]);
    }

    private static double CostOf(HarpNote? note) => note switch
    {
        null => NotThere,
        { Technique: HarpTechnique.Plain } => 0,
        { Technique: HarpTechnique.OverBent } => OverBend,
        { Bend: var bend } => FirstSemitone + EachMoreSemitone * (-bend - 1),
    };
}
