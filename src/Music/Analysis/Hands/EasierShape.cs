using System.Collections.Immutable;
using Harkbook.Music.Instruments.Voicings;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Analysis.Hands;

/// <summary>
/// Another shape for a chord of the song that sounds the same notes over the same bass and is clearly easier where the song uses it:
/// at least two fifths cheaper and by at least 1, about what a small barre costs (docs/decisions/0005-shapes-and-costs.md).
/// </summary>
/// <param name="Chord">The chord as the song names it.</param>
/// <param name="Cost">What the hand pays for the song's shape: the shape itself, and moving into it and out of it, on average.</param>
/// <param name="EasierCost">The same for the other shape.</param>
public sealed record EasierShape(ChordUse Chord, Voicing Easier, double Cost, double EasierCost)
{
    private const double Cheaper = 0.6;
    private const double Least = 1;

    /// <summary>One for each chord that has one, in order of appearance. Chords that are picked are left out: there the shape is heard note by note.</summary>
    public static ImmutableArray<EasierShape> In(Song song) => In(new ShapeSearch(song));

    internal static ImmutableArray<EasierShape> In(ShapeSearch search) => [.. search.Uses().Select(u => For(u, search)).OfType<EasierShape>()];

    private static EasierShape? For(ChordUse use, ShapeSearch search)
    {
        var cost = search.OwnCost(use);
        return search.Others(use).Select(v => new EasierShape(use, v, cost, search.Cost(use, v.Shape, v.Fingering)))
            .Where(e => e.EasierCost <= cost * Cheaper && cost - e.EasierCost >= Least).MinBy(e => e.EasierCost);
    }
}
