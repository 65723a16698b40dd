using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Rhythm;

/// <summary>A syllable that comes before a strong beat (the bar's first, or its middle) and is held over it, so that none starts on the beat itself.</summary>
/// <param name="Bar">The bar in which the syllable starts.</param>
/// <param name="Start">Where it starts, in felt beats of that bar.</param>
/// <param name="Early">How much before the beat, in felt beats.</param>
/// <param name="IntoNextBar">Whether the beat is the next bar's first.</param>
public readonly record struct Anticipation(int Bar, Beats Start, Beats Early, string Syllable, bool IntoNextBar)
{
    /// <summary>Every anticipation of a song, in order. A strong beat is anticipated by at most half of it.</summary>
    public static ImmutableArray<Anticipation> In(Song song) =>
        [.. song.Sections.SelectMany(s => s.Bars.SelectMany((bar, i) => InBar(bar, i + 1 < s.Bars.Length ? s.Bars[i + 1] : null)))];

    private static IEnumerable<Anticipation> InBar(Bar bar, Bar? next)
    {
        foreach (var claim in bar.Sung)
        {
            var place = BarPlace.Of(bar.Meter, claim.Start);
            var early = Beats.Whole(1) - place.IntoBeat;
            if (place.IsOnBeat || early > Beats.Fraction(1, 2) || claim.Length <= early)
                continue;
            var beat = claim.Start + early;
            var over = beat == bar.Meter.BarLength;
            if (!over && beat * 2 != bar.Meter.BarLength)
                continue;
            if (over ? next is not null && next.Sung.All(s => s.Start != Beats.Zero) : bar.Sung.All(s => s.Start != beat))
                yield return new(bar.Number, claim.Start, early, claim.Value, over);
        }
    }
}
