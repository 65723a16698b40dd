using System.Globalization;
using Harkbook.Music.Analysis;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Publishing.Engraving;

/// <summary>What was corrected after publication, in words: when, by whom, in which fact, shape or bars, and why.</summary>
internal static class Corrections
{
    /// <param name="part">The bars to look at.</param>
    public static IEnumerable<string> Of(Song song, Song part) =>
        Claims(part).Where(c => c.Standing.Kind == StandingKind.Corrected).GroupBy(c => c.Standing)
            .Select(g => Words(g.Key, [.. g.Where(c => c.Place is null).Select(c => c.What).Distinct(), .. Places(song, g)]));

    private sealed record Claimed(Standing Standing, string What, SongPlace? Place = null);

    private static string Words(Standing correction, IEnumerable<string> what)
    {
        var on = correction.On is { } date ? date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) + ", " : "";
        return $"Corrected {on}{correction.By ?? "unnamed"}, {string.Join("; ", what)}: {correction.Why ?? "no reason given"}";
    }

    /// <summary>"chords in Verse 1, bars 2 to 4".</summary>
    private static IEnumerable<string> Places(Song song, IEnumerable<Claimed> claims) =>
        claims.Where(c => c.Place is not null).GroupBy(c => c.What).Select(g => $"{g.Key} in {PlaceWords.Of(song, g.Select(c => c.Place!.Value))}");

    private static IEnumerable<Claimed> Claims(Song song) =>
    [
        .. SongFacts.Of(song).Select(f => new Claimed(f.Standing, f.Label)),
        .. song.Shapes.Select(s => new Claimed(s.Standing, $"the shape of {s.Name}")),
        .. song.Bars.SelectMany(b => (IEnumerable<Claimed>)
            [.. In(b, "chords", b.Chords), .. In(b, "singing", b.Sung), .. In(b, "harp", b.Harp), .. In(b, "picking", b.Picked), .. In(b, "strum", b.Strums)]),
    ];

    private static IEnumerable<Claimed> In<T>(Bar bar, string part, IEnumerable<Claim<T>> claims) =>
        claims.Select(c => new Claimed(c.Standing, part, new SongPlace(bar.Number, c.Start, Beats.Zero)));
}
