using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Engraving.Rows;
using Harkbook.Publishing.Engraving.Tabs;

namespace Harkbook.Publishing.Engraving.Sheets;

/// <summary>The rows that a song's bars are drawn in: the hands above the count, voice and breath below.</summary>
internal static class SongRows
{
    /// <summary>Whether a rest stands in any of the rows.</summary>
    public static bool FallSilent(Song song) =>
        new[] { Silences.OfChords(Silences.Stretches(song)), Silences.OfPicked(song), Silences.OfStrums(song), Silences.OfHarp(song) }.Any(s => s.Any);

    /// <param name="chords">Size of the chords' names in points.</param>
    /// <param name="harp">Size of the holes' figures.</param>
    public static ImmutableArray<BarRow> Of(Song song, double chords = 13, double harp = 8.6) =>
        [new ChordRow(song, chords), new TabRow(new(song.Tuning.Value, song.Capo.Value), song.Bars, silences: Silences.OfPicked(song)),
            new StrumRow(Silences.OfStrums(song)), .. FromCount(song, harp)];

    /// <summary>On paper, where under a capo the chords have both their names.</summary>
    /// <param name="patterns">The tab's and the strums', which are printed once.</param>
    public static ImmutableArray<BarRow> OfSheet(Song song, IEnumerable<SheetPatterns> patterns)
    {
        var chords = new ChordRow(song);
        return [chords, new CapoNameRow(CapoNames.Of(song), chords), .. patterns.Select(p => p.Row), .. FromCount(song, 8.6)];
    }

    /// <summary>As on paper, with every bar written out.</summary>
    public static ImmutableArray<BarRow> WrittenOut(Song song, ChordRow chords) =>
        [chords, new CapoNameRow(CapoNames.Of(song), chords), new TabRow(new(song.Tuning.Value, song.Capo.Value), song.Bars, silences: Silences.OfPicked(song)),
            new StrumRow(Silences.OfStrums(song)), .. FromCount(song, 8.6)];

    private static BarRow[] FromCount(Song song, double harp) =>
        [new CountRow(song.Counting), new SungRow(), new TuneRow(song), new HarpRow(harp, Silences.OfHarp(song))];
}
