using System.Collections.Immutable;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Analysis.Songbooks;

/// <summary>What a song shares with others of its songbook, and what it says otherwise than they do.</summary>
public static class SongbookRemarks
{
    private const string Grips = "frets and open strings compared, whatever the capo";
    private const string Strokes = "strokes of a bar compared, in the same meter";

    /// <summary>A bar of fewer strokes is no pattern that a player would recognise.</summary>
    private const int FewestStrokes = 4;

    /// <param name="others">The other songs of the book; the song itself may be among them.</param>
    public static IEnumerable<Remark> Of(Song song, IReadOnlyList<Song> others)
    {
        ImmutableArray<Song> strangers = [.. others.Where(o => o != song)];
        if (strangers.IsEmpty)
            return [];
        var book = Songbook.Of(strangers.Prepend(song));
        return Shapes(song, book).Concat(Strums(song, book)).Concat(Borrowed(song, book)).Concat(Differences(song, book));
    }

    private static IEnumerable<Remark> Shapes(Song song, Songbook book) =>
        from grip in book.Grips
        let here = grip.Uses.Where(u => u.Song == song).ToArray()
        let there = grip.Uses.Where(u => u.Song != song).ToArray()
        where here.Length > 0 && there.Length > 0
        group (Grip: grip, Here: here[0], There: there) by string.Join('|', there.Select(u => u.Song.Title).Distinct()) into shared
        select new Remark(RemarkKind.SharedShapes,
            $"{NumberWords.List([.. shared.Select(s => Named(s.Here, s.There))])} {(shared.Count() == 1 ? "is a shape" : "are shapes")} of "
                + $"{SongbookFindings.Titles(shared.First().There.Select(u => u.Song))} too.",
            [.. shared.Select(s => new RemarkFact($"{s.Here.Name} as {s.Grip.Shape}",
                string.Join("; ", s.There.Select(u => $"{u.Name} in {u.Song.Title}, {u.Bars.Length} bars")), Grips))])
        {
            Places = [.. shared.SelectMany(s => s.Here.Bars).Distinct().Order().Select(n => SongPlace.Of(song.Bars.ElementAt(n - 1)))],
        };

    /// <summary>"E", or "E, there called D," where a capo or the other song names it otherwise.</summary>
    private static string Named(ShapeUse here, ShapeUse[] there)
    {
        var names = there.Select(u => u.Own).Where(s => s != here.Own).Distinct().Select(Spoken).ToArray();
        return names.Length == 0 ? Spoken(here.Own) : $"{Spoken(here.Own)} (there called {NumberWords.List(names)})";
    }

    private static string Spoken(string symbol) => Theory.Symbols.ChordSymbol.TryRead(symbol, out var chord) ? ChordSpeech.Of(chord) : symbol;

    private static IEnumerable<Remark> Strums(Song song, Songbook book) =>
        from strum in book.Strums
        where strum.Strokes.Length >= FewestStrokes
        let here = strum.Uses.FirstOrDefault(u => u.Song == song)
        let there = strum.Uses.Where(u => u.Song != song).ToArray()
        where here is not null && there.Length > 0
        select new Remark(RemarkKind.SharedStrum,
            $"{NumberWords.Capital(here.Bars.Length)} of its bars {(here.Bars.Length == 1 ? "is" : "are")} strummed as in "
                + $"{SongbookFindings.Titles(there.Select(u => u.Song))}.",
            [new(strum.ToString(), string.Join("; ", strum.Uses.Select(u => $"{u.Song.Title}, {u.Bars.Length} bars")), Strokes)])
        {
            Places = [.. here.Bars.Select(n => SongPlace.Of(song.Bars.ElementAt(n - 1)))],
        };

    private static IEnumerable<Remark> Borrowed(Song song, Songbook book) =>
        from borrowed in book.Borrowed
        let here = borrowed.Uses.Where(u => u.Song == song).ToArray()
        let there = borrowed.Uses.Where(u => u.Song != song).ToArray()
        where here.Length > 0 && there.Length > 0
        select new Remark(RemarkKind.SharedBorrowedChord,
            $"It borrows {Spoken(here[0].Own)} as {NumberWords.List([.. there.Select(u => $"{u.Song.Title} borrows {Spoken(u.Own)}").Distinct()])}.",
            [new(borrowed.Numeral, string.Join("; ", borrowed.Uses.Select(u => $"{u.Symbol} in {u.Song.Title}")),
                "Roman numerals compared, each in its song's key")])
        {
            Places = [.. here.SelectMany(u => u.Bars).Distinct().Order().Select(n => SongPlace.Of(song.Bars.ElementAt(n - 1)))],
        };

    private static IEnumerable<Remark> Differences(Song song, Songbook book) =>
        from finding in book.Findings
        where finding.Songs.Contains(song) && finding.Songs.Length > 1
        select new Remark(RemarkKind.WrittenTwoWays, finding.Sentence,
            [new("songs compared", $"{book.Songs.Length}", finding.Kind == SongbookFindingKind.PitchDiffers
                ? "cents between reference pitches; 5 cents are about what an ear tells apart (common practice)"
                : "what the song files say, compared word by word")]);
}
