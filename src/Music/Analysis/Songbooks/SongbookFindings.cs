using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Songbooks;

/// <summary>Looks for what songs of one book write in two ways.</summary>
internal static class SongbookFindings
{
    /// <summary>About what an ear can tell apart (a just noticeable difference of 5 cents, common practice).</summary>
    private const double AudibleCents = 5;

    public static IEnumerable<SongbookFinding> In(ImmutableArray<Song> songs) =>
        Shapes(songs).Concat(Chords(songs)).Concat(Tunings(songs)).Concat(SectionKinds.FindingsIn(songs)).Concat(Pitches(songs));

    /// <summary>A capo moves every name alike, so names are compared as they would be without it.</summary>
    private static IEnumerable<SongbookFinding> Shapes(ImmutableArray<Song> songs) =>
        from grip in Grip.In(songs.SelectMany(ShapeUse.Of))
        from alike in grip.Uses.Where(u => !u.Chord.IsNone).GroupBy(u => u.Song.Capo.Value.IsPartial ? u.Song.Capo.Value : Capo.None)
        let names = alike.GroupBy(WithoutCapo).ToArray()
        where names.Length > 1
        select new SongbookFinding(SongbookFindingKind.ShapeNamedTwice,
            $"The shape {grip.Shape} in {TuningCatalogue.DescribeOnAny(grip.Tuning)} is called "
                + $"{Listed(names.Select(n => n.First().Own), names.Select(n => n.Select(u => u.Song)))}.",
            Once(alike.Select(u => u.Song)));

    private static (int, int, string) WithoutCapo(ShapeUse use)
    {
        var capo = use.Song.Capo.Value;
        var down = capo.IsPartial ? 0 : capo.Fret;
        return (Floor.Mod(use.Chord.Root.PitchClass - down, 12), Floor.Mod(use.Chord.Bass.PitchClass - down, 12),
            string.Join(' ', use.Chord.Quality.PitchClasses));
    }

    private static IEnumerable<SongbookFinding> Chords(ImmutableArray<Song> songs) =>
        from song in songs
        from use in HandReading.Of(song).Bars.SelectMany(b => b.Chords).Select(c => (Song: song, c.Value.Chord, Symbol: NamedShape.SymbolOf(c.Value.Name)))
        where !use.Chord.IsNone
        group use by use.Chord into chord
        let spelt = chord.GroupBy(u => u.Symbol).ToArray()
        where spelt.Length > 1
        select new SongbookFinding(SongbookFindingKind.ChordSpeltTwice,
            $"The same chord is written {Listed(spelt.Select(s => s.Key), spelt.Select(s => s.Select(u => u.Song)))}.",
            Once(chord.Select(u => u.Song)));

    private static IEnumerable<SongbookFinding> Tunings(ImmutableArray<Song> songs) =>
        from song in songs
        where !song.Capo.Value.IsPartial
        group song by string.Join(' ', song.Tuning.Value.Strings.Select(s => s.Midi + song.Capo.Value.Fret)) into sounding
        let written = sounding.GroupBy(s => (s.Tuning.Value, s.Capo.Value)).ToArray()
        where written.Length > 1
        select new SongbookFinding(SongbookFindingKind.TuningWrittenTwice,
            "The open strings sound the same, and are written as "
                + $"{Listed(written.Select(w => $"{Setting(w.Key.Item1, w.Key.Item2, written.Select(o => o.Key.Item1))} in {Titles(w)}"))}.",
            [.. sounding]);

    /// <summary>The tuning's name, or its notes where another of the same name stands beside it.</summary>
    private static string Setting(Tuning tuning, Capo capo, IEnumerable<Tuning> beside)
    {
        var name = TuningCatalogue.DescribeOnAny(tuning);
        var alike = beside.Distinct().Count(t => TuningCatalogue.DescribeOnAny(t) == name) > 1;
        return (alike ? tuning.ToString() : name) + (capo.Fret == 0 ? "" : $" with a capo at fret {capo.Fret}");
    }

    private static IEnumerable<SongbookFinding> Pitches(ImmutableArray<Song> songs)
    {
        foreach (var album in songs.Where(s => s.Album is not null && s.ReferencePitch.Standing.Kind != StandingKind.Assumed).GroupBy(s => s.Album))
        {
            var (low, high) = (album.MinBy(s => s.ReferencePitch.Value)!, album.MaxBy(s => s.ReferencePitch.Value)!);
            var apart = Cents.Between(low.ReferencePitch.Value, high.ReferencePitch.Value).Value;
            if (apart > AudibleCents)
                yield return new(SongbookFindingKind.PitchDiffers, string.Create(CultureInfo.InvariantCulture,
                    $"On {album.Key} the reference pitch differs by {apart:0} cents: A is {low.ReferencePitch.Value.Value:0.#} Hz in {low.Title} and "
                        + $"{high.ReferencePitch.Value.Value:0.#} Hz in {high.Title}."), [.. album]);
        }
    }

    /// <summary>"x in A and y in B", or "x and y in A" where it is one song.</summary>
    private static string Listed(IEnumerable<string> words, IEnumerable<IEnumerable<Song>> songs) =>
        Once(songs.SelectMany(s => s)) is [var only]
            ? $"{NumberWords.List([.. words])} in {only.Title}"
            : Listed(words.Zip(songs, (word, of) => $"{word} in {Titles(of)}"));

    internal static string Titles(IEnumerable<Song> songs) => NumberWords.List([.. Once(songs).Select(s => s.Title)]);

    internal static string Listed(IEnumerable<string> parts) => NumberWords.List([.. parts]);

    internal static ImmutableArray<Song> Once(IEnumerable<Song> songs) => [.. songs.Distinct<Song>(ReferenceEqualityComparer.Instance)];
}
