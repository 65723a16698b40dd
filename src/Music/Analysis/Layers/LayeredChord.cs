using System.Collections.Immutable;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Analysis.Layers;

/// <summary>Two layers sounding together: what each is, and what they make.</summary>
/// <param name="Lower">The chord below, as the song names it.</param>
/// <param name="Union">Names of all the notes together, the most natural first.</param>
/// <param name="Upper">The upper layer as a chord of its own; null where it is fewer than three notes or no plain chord.</param>
/// <param name="Degrees">The upper layer's notes above the lower chord's root.</param>
/// <param name="Shared">Notes that both layers have.</param>
public sealed record LayeredChord(Chord Lower,
    ImmutableArray<ChordName> Union, Chord? Upper, ImmutableArray<Interval> Degrees, ImmutableArray<PitchName> Shared)
{
    private const double PlainChord = 2;

    /// <param name="lower">The lower chord.</param>
    /// <param name="sounding">The notes that the lower layer really sounds, the bass among them; empty takes the chord's own.</param>
    /// <param name="bass">The lowest sounding note.</param>
    /// <param name="upper">The upper layer's notes from the lowest up.</param>
    public static LayeredChord Of(Chord lower, IReadOnlyCollection<PitchName> sounding, PitchName bass, IReadOnlyList<PitchName> upper, Key? key = null)
    {
        ImmutableArray<PitchName> below = sounding.Count > 0 ? [.. sounding.Distinct()] : lower.Notes;
        var classes = upper.Select(n => n.PitchClass).Distinct().ToArray();
        ImmutableArray<PitchName> added = [.. upper.Where(n => below.All(b => b.PitchClass != n.PitchClass)).DistinctBy(n => n.PitchClass)];
        return new(
            lower,
            ChordNaming.Rank(below.AddRange(added), bass, key),
            classes.Length >= 3 && ChordNaming.Rank(upper.Distinct(), upper[0], key)[0] is { Cost: <= PlainChord, LeftOut.IsEmpty: true } own
                ? own.Chord : null,
            UpperStructure.Degrees(lower, upper.DistinctBy(n => n.PitchClass)),
            [.. below.Where(b => classes.Contains(b.PitchClass))]);
    }

    /// <summary>The most natural name of all the notes.</summary>
    public Chord Name => Union[0].Chord;

    /// <summary>Degrees that the upper layer adds to the chord.</summary>
    public IEnumerable<Interval> Added => Degrees.Where(d => !Lower.Quality.Intervals.Contains(d) && (Lower.Root + d).PitchClass != Lower.Bass.PitchClass);
}
