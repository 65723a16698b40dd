using System.Globalization;
using Harkbook.Music.Analysis;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Publishing.Engraving;

/// <summary>What was corrected after publication, in words: when, by whom, in which fact, shape or bars, and why.</summary>
internal static class Corrections
{
    public static IEnumerable<string> Of(Song song) => Of(song, song);

    /// <summary>Whether something in a bar was corrected.</summary>
    public static bool Touch(Bar bar) => InBar(bar).Any(c => c.Standing.Kind == StandingKind.Corrected);

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
        .. song.Shapes.Select(s => new Claimed(s.Standing, $"the shape of {CapoNames.Of(song)?.First(s.Name) ?? s.Name}")),
        .. song.Sections.SelectMany(InSection),
        .. song.Bars.SelectMany(InBar),
    ];

    private static IEnumerable<Claimed> InSection(Section section) =>
    [
        .. section.Bars.Take(1).Select(b => new Claimed(section.Standing, $"where {section.Name} begins", At(b))),
        .. section.Anchors.Where(a => a.Bar <= section.Bars.Length).Select(a => new Claimed(a.Standing, "times", At(section.Bars[a.Bar - 1]))),
        .. section.Keys.Where(k => k.Bar <= section.Bars.Length).Select(k => new Claimed(k.Standing, "key", At(section.Bars[k.Bar - 1]))),
    ];

    private static IEnumerable<Claimed> InBar(Bar bar) =>
        [.. In(bar, "chords", bar.Chords), .. In(bar, "singing", bar.Sung), .. In(bar, "tune", bar.Tune), .. In(bar, "harp", bar.Harp),
            .. In(bar, "picking", bar.Picked), .. In(bar, "strum", bar.Strums)];

    private static SongPlace At(Bar bar) => new(bar.Number, Beats.Zero, Beats.Zero);

    private static IEnumerable<Claimed> In<T>(Bar bar, string part, IEnumerable<Claim<T>> claims) =>
        claims.Select(c => new Claimed(c.Standing, part, new SongPlace(bar.Number, c.Start, Beats.Zero)));
}
