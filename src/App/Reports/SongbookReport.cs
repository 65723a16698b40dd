using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Json;
using Harkbook.Music.Analysis.Songbooks;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;

namespace Harkbook.App.Reports;

/// <summary>Many songs in plain text and for machines.</summary>
internal static class SongbookReport
{
    public static string Write(Songbook book)
    {
        var text = new StringBuilder();
        var (width, keys) = (book.Songs.Max(s => s.Title.Length), book.Songs.Max(s => Key(s).Length));
        foreach (var song in book.Songs)
            text.AppendLine(string.Create(CultureInfo.InvariantCulture,
                $"{song.Title.PadRight(width)}  {Key(song).PadRight(keys)} {Setting(song),-24} {Harp(song),-14} {song.Tempo.Value:0.#} in {song.Meter.Value}"));
        Part(text, "shapes, the most used first",
            book.Grips.Select(g => $"{g.Shape,-12} {string.Join(", ", g.Names),-14} {TuningCatalogue.DescribeOnAny(g.Tuning)}: "
                + $"{string.Join("; ", g.Uses.Select(u => Bars(u, g.Names.Length > 1)))}"));
        Part(text, "strums", book.Strums.Select(s => $"{s.Meter}  {s}   {string.Join("; ", s.Uses.Select(u => $"{u.Song.Title}, {Counted(u.Bars.Length)}"))}"));
        Part(text, "borrowed chords", book.Borrowed.Select(b =>
            $"{b.Numeral,-9} {string.Join("; ", b.Uses.Select(u => $"{Both(u.Song, u.Symbol)} in {u.Song.Title}, {Counted(u.Bars.Length)}"))}"));
        Part(text, "written in two ways (where it is meant so, leave it)", book.Findings.Select(f => f.Sentence));
        return text.ToString();
    }

    /// <summary>Where a shape or a chord is used, and what else sounds the same.</summary>
    public static string Where(ImmutableArray<ShapeUse> uses, Songbook book, bool json)
    {
        var others = uses.SelectMany(book.SoundingAs).Except(uses).Distinct().ToArray();
        if (json)
            return JsonSerializer.Serialize(new { uses = uses.Select(Json), soundsTheSame = others.Select(Json) }, JsonLayout.Readable) + "\n";
        var text = new StringBuilder();
        foreach (var use in uses)
            text.AppendLine($"{use.Song.Title}: {Described(use)}");
        foreach (var use in others)
            text.AppendLine($"sounds the same: {use.Song.Title}: {Described(use)}");
        return text.Length > 0 ? text.ToString() : "No song of the book uses it.\n";
    }

    public static string Json(Songbook book) => JsonSerializer.Serialize(
        new
        {
            songs = book.Songs.Select(s => new
            {
                title = s.Title,
                player = s.Player,
                album = s.Album,
                key = s.Key.Value.ToString(),
                tuning = s.Tuning.Value.ToString(),
                capo = s.Capo.Value.Fret,
                harp = s.Harp?.Value.ToString(),
                tempo = s.Tempo.Value,
                meter = s.Meter.Value.ToString(),
                pitch = s.ReferencePitch.Value.Value,
            }),
            shapes = book.Grips.Select(g => new { shape = g.Shape.ToString(), tuning = g.Tuning.ToString(), names = g.Names, uses = g.Uses.Select(Json) }),
            strums = book.Strums.Select(s => new { meter = s.Meter.ToString(), strokes = s.ToString(),
                uses = s.Uses.Select(u => new { song = u.Song.Title, bars = u.Bars }) }),
            borrowed = book.Borrowed.Select(b => new { numeral = b.Numeral,
                uses = b.Uses.Select(u => new { song = u.Song.Title, chord = u.Symbol, bars = u.Bars }) }),
            findings = book.Findings.Select(f => new { kind = JsonNamingPolicy.CamelCase.ConvertName(f.Kind.ToString()), sentence = f.Sentence,
                songs = f.Songs.Select(s => s.Title) }),
        },
        JsonLayout.Readable) + "\n";

    private static object Json(ShapeUse use) => new
    {
        song = use.Song.Title,
        name = use.Name,
        shape = use.Shape.ToString(),
        tuning = use.Song.Tuning.Value.ToString(),
        capo = use.Song.Capo.Value.Fret,
        sounds = use.Shape.Pitches(use.Song.Tuning.Value, use.Song.Capo.Value, use.Chord).Select(p => p.ToString()),
        bars = use.Bars,
    };

    private static void Part(StringBuilder text, string title, IEnumerable<string> lines)
    {
        var all = lines.ToArray();
        if (all.Length == 0)
            return;
        text.AppendLine().AppendLine(title);
        foreach (var line in all)
            text.Append("  ").AppendLine(line);
    }

    private static string Described(ShapeUse use) =>
        $"{Both(use.Song, use.Name)} as {use.Shape} in {Setting(use.Song)}, "
            + (use.Bars.IsEmpty ? "named but not used" : $"bars {string.Join(", ", use.Bars)}");

    private static string Setting(Song song) =>
        TuningCatalogue.DescribeOnAny(song.Tuning.Value) + (song.Capo.Value.Fret == 0 ? "" : $", capo {song.Capo.Value.Describe(song.Tuning.Value)}");

    private static string Harp(Song song) => song.Harp is { } harp ? "harp in " + harp.Value.ToHarmonica().Name : "";

    /// <summary>The song's own name, under a capo with the other one behind it.</summary>
    private static string Both(Song song, string sounding) => CapoNames.Of(song)?.Both(sounding) ?? sounding;

    private static string Key(Song song) =>
        CapoNames.Of(song) is not { } names ? $"{song.Key.Value}"
        : names.HandFirst ? $"{names.Hand(song.Key.Value)} (sounds {song.Key.Value})" : $"{song.Key.Value} (play {names.Hand(song.Key.Value)})";

    private static string Bars(ShapeUse use, bool named) =>
        $"{use.Song.Title}, "
            + (named || CapoNames.Of(use.Song) is not null ? Both(use.Song, use.Symbol) + " " : "")
            + (use.Bars.IsEmpty ? "named only" : Counted(use.Bars.Length));

    private static string Counted(int bars) => bars == 1 ? "1 bar" : $"{bars} bars";
}
