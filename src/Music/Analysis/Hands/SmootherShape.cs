using System.Collections.Immutable;
using Harkbook.Music.Instruments.Voicings;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Analysis.Hands;

/// <summary>
/// Another shape for a chord of the song that sounds the same notes over the same bass, lies clearly nearer to the shapes around it
/// (at most three fifths of the motion, and three semitones less), loses no string, and costs the hand at most 0.3 more, a third of what
/// a small barre costs (our judgement).
/// </summary>
/// <param name="Chord">The chord as the song names it.</param>
/// <param name="Motion">Semitones that the strings move into the song's shape and out of it, on average.</param>
/// <param name="SmootherMotion">The same for the other shape.</param>
/// <param name="Cost">What the hand pays for the song's shape, as <see cref="EasierShape"/> counts it.</param>
/// <param name="SmootherCost">The same for the other shape.</param>
public sealed record SmootherShape(ChordUse Chord, Voicing Smoother, double Motion, double SmootherMotion, double Cost, double SmootherCost)
{
    private const double Nearer = 0.6;
    private const double Least = 3;
    private const double Slack = 0.3;

    /// <summary>One for each chord that has one, in order of appearance.</summary>
    public static ImmutableArray<SmootherShape> In(Song song) => In(new ShapeSearch(song));

    internal static ImmutableArray<SmootherShape> In(ShapeSearch search) => [.. search.Uses().Select(u => For(u, search)).OfType<SmootherShape>()];

    private static SmootherShape? For(ChordUse use, ShapeSearch search)
    {
        var (motion, cost) = (search.Motion(use, use.Shape!), search.OwnCost(use));
        return search.Others(use).Where(v => v.Shape.SoundingStrings >= use.Shape!.SoundingStrings)
            .Select(v => new SmootherShape(use, v, motion, search.Motion(use, v.Shape), cost, search.Cost(use, v.Shape, v.Fingering)))
            .Where(s => s.SmootherMotion <= motion * Nearer && motion - s.SmootherMotion >= Least && s.SmootherCost <= cost + Slack)
            .MinBy(s => s.SmootherMotion);
    }
}
