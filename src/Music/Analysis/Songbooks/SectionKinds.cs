using System.Collections.Immutable;
using Harkbook.Music.Instruments;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Analysis.Songbooks;

/// <summary>Names of sections, and which of them mean the same kind; the kinds stand in data/section-words.tsv.</summary>
internal static class SectionKinds
{
    private static readonly ImmutableArray<ImmutableArray<string>> Kinds =
        [.. PublishedTable.Rows("section-words.tsv").Select(row => row[0].Split(';').ToImmutableArray())];

    /// <summary>The name without a number or letter at its end: "Verse" of "Verse 2" and "Verse B".</summary>
    public static string Stem(string name)
    {
        var words = name.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        return words is [_, .., { } last] && !Kinds.Any(k => k.Contains(name, StringComparer.OrdinalIgnoreCase))
            && (last.Length == 1 || last.All(char.IsAsciiDigit))
            ? string.Join(' ', words[..^1])
            : name;
    }

    public static IEnumerable<SongbookFinding> FindingsIn(ImmutableArray<Song> songs) => songs.SelectMany(SameBars).Concat(SameKind(songs));

    /// <summary>Two sections of one song with the very same chords, under different words.</summary>
    private static IEnumerable<SongbookFinding> SameBars(Song song) =>
        from section in song.Sections
        where section.Bars.Length > 1 && section.Bars.Any(b => !b.Chords.IsEmpty)
        group section by string.Join('|', section.Bars.Select(b => string.Join(' ', b.Chords.Select(c => $"{c.Start}{c.Value.Name}")))) into same
        let stems = same.Select(s => Stem(s.Name)).Distinct(StringComparer.OrdinalIgnoreCase).ToArray()
        where stems.Length > 1 && SameLines(same)
        select new SongbookFinding(SongbookFindingKind.SectionNamedTwice,
            $"In {song.Title} sections with the same bars are called {SongbookFindings.Listed(same.Select(s => s.Name).Distinct())}.", [song]);

    /// <summary>Chords alone may be shared by verse and chorus; where nothing else differs either, only the name does.</summary>
    private static bool SameLines(IEnumerable<Section> sections) =>
        sections.Select(s => string.Join('|',
            s.Bars.Select(b => string.Join(' ', b.Strums.Select(x => $"{x.Start}{x.Value}").Concat(b.Sung.Select(x => $"{x.Start}{x.Value}"))))))
            .Distinct().Count() == 1;

    private static IEnumerable<SongbookFinding> SameKind(ImmutableArray<Song> songs) =>
        from kind in Kinds
        let used = (from song in songs
                    from stem in song.Sections.Select(s => Stem(s.Name)).Distinct(StringComparer.OrdinalIgnoreCase)
                    let word = kind.FirstOrDefault(w => w.Equals(stem, StringComparison.OrdinalIgnoreCase))
                    where word is not null
                    group song by word).ToArray()
        where used.Length > 1
        select new SongbookFinding(SongbookFindingKind.SectionNamedTwice,
            $"The same kind of section is called {SongbookFindings.Listed(used.Select(u => $"{u.Key} in {SongbookFindings.Titles(u)}"))}.",
            SongbookFindings.Once(used.SelectMany(u => u)));
}
