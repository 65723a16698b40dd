using System.Collections.Immutable;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Proposing;

/// <summary>
/// What is too unsure to be written stays out of a draft: chords, strokes, notes, syllables, notes of the tune, breaths and changes of key each by its own
/// sureness; a shape by its own too, and where no chord uses it any more; a harmonica, breaths and all, by its, and so the tune by who plays it.
/// </summary>
internal static class SureEnough
{
    public static Song Of(Song song, DraftOptions options)
    {
        var hasHarp = song.Harp is { } harp && IsSure(harp.Standing, options.LeastSureOfInstrument);
        var least = options.LeastSure;
        var hasTune = song.TunePlayer is { } player && IsSure(player.Standing, options.LeastSureOfInstrument);
        var shapes = song.Shapes.Where(s => IsSure(s.Standing, least)).Select(s => s.Name).ToHashSet();
        var sections = song.Sections.Select(s => s with
        {
            Bars = [.. s.Bars.Select(b => Of(b, least, hasHarp, hasTune, shapes))],
            Keys = Keys(s.Keys, song, least),
        }).ToImmutableArray();
        var used = sections.SelectMany(s => s.Bars).SelectMany(b => b.Chords).Where(c => c.Value.Shape is not null).Select(c => c.Value.Name).ToHashSet();
        return song with { TunePlayer = hasTune ? song.TunePlayer : null, Harp = hasHarp ? song.Harp : null,
            Shapes = [.. song.Shapes.Where(s => used.Contains(s.Name))], Sections = sections };
    }

    /// <summary>How many claims of a song's bars the other lacks.</summary>
    public static int Missing(Song all, Song kept) => Count(all) - Count(kept);

    private static int Count(Song song) =>
        song.Shapes.Length + song.Bars.Sum(b => b.Chords.Length + b.Sung.Length + b.Tune.Length + b.Harp.Length + b.Picked.Length + b.Strums.Length);

    private static Bar Of(Bar bar, double least, bool hasHarp, bool hasTune, HashSet<string> shapes) => bar with
    {
        Chords = [.. Sure(bar.Chords, least).Select(c => shapes.Contains(c.Value.Name) ? c : c with { Value = c.Value with { Shape = null } })],
        Sung = Sure(bar.Sung, least),
        Tune = hasTune ? Sure(bar.Tune, least) : [],
        Harp = hasHarp ? Sure(bar.Harp, least) : [],
        Picked = Sure(bar.Picked, least),
        Strums = Sure(bar.Strums, least),
    };

    private static ImmutableArray<Claim<T>> Sure<T>(ImmutableArray<Claim<T>> claims, double least) => [.. claims.Where(c => IsSure(c.Standing, least))];

    /// <summary>A change that stays behind one that goes may name the key that holds already.</summary>
    private static ImmutableArray<KeyChange> Keys(ImmutableArray<KeyChange> changes, Song song, double least)
    {
        var (kept, key) = (ImmutableArray.CreateBuilder<KeyChange>(), song.Key.Value);
        foreach (var change in changes.Where(c => IsSure(c.Standing, least) && c.Key != key))
        {
            if (change.Key != key)
                kept.Add(change);
            key = change.Key;
        }
        return kept.ToImmutable();
    }

    private static bool IsSure(Standing standing, double least) => standing.Kind != StandingKind.Heard || standing.Confidence >= least;
}
