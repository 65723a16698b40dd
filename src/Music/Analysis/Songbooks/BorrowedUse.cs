using System.Collections.Immutable;
using Harkbook.Music.Analysis.Harmony;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Analysis.Songbooks;

/// <summary>A borrowed chord, by its numeral, and the songs that have it.</summary>
/// <param name="Numeral">As in "iv" or "bVII".</param>
public sealed record BorrowedUse(string Numeral, ImmutableArray<BorrowedChord> Uses)
{
    /// <summary>Borrowed chords of some songs, those of most songs first.</summary>
    public static ImmutableArray<BorrowedUse> In(IEnumerable<Song> songs) =>
        [.. songs.SelectMany(BorrowedChord.Of).GroupBy(b => b.Numeral).Select(g => new BorrowedUse(g.Key, [.. g]))
            .OrderByDescending(b => b.Uses.Length).ThenBy(b => b.Numeral, StringComparer.Ordinal)];
}

/// <summary>A borrowed chord in one song.</summary>
/// <param name="Bars">Numbers of its bars, rising.</param>
public sealed record BorrowedChord(Song Song, string Numeral, string Symbol, ImmutableArray<int> Bars)
{
    /// <summary>The symbol that the song's file writes.</summary>
    public string Own => CapoNames.Of(Song)?.First(Symbol) ?? Symbol;

    public static IEnumerable<BorrowedChord> Of(Song song) =>
        HarmonicAnalysis.Of(song).Chords
            .Where(c => c.Reading.Origin.IsBorrowed && c.Reading.Numeral is not null)
            .GroupBy(c => (Numeral: c.Reading.Numeral!.ToString(), Symbol: c.Reading.Chord.ToString()))
            .Select(g => new BorrowedChord(song, g.Key.Numeral, g.Key.Symbol, [.. g.Select(c => c.Place.Bar).Distinct()]));
}
