using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Engraving.Sheets;

/// <summary>Songs as rows of a table, each with what a player sets up by.</summary>
internal static class SongbookTable
{
    private const double Size = 9.2;
    private const double SmallSize = 7;
    private const double RowHeight = 27;
    private const double LineHeight = 11.5;

    private sealed record Column(string Label, double Share, Face Face, Func<Song, string> First, Func<Song, string> Second);

    private static readonly Column[] Columns =
    [
        new("song", 0.35, Face.Strong, s => s.Title, s => string.Join("  ·  ", new[] { s.Player, s.Album }.Where(t => !string.IsNullOrEmpty(t)))),
        new("key", 0.155, Face.Text, s => $"{PitchText.Of(s.Key.Value.Tonic)} {s.Key.Value.Mode}", Hand),
        new("tuning", 0.195, Face.Text, s => PitchText.Signed(TuningCatalogue.DescribeOnAny(s.Tuning.Value)),
            s => string.Join(' ', s.Tuning.Value.Strings.Select(p => PitchText.Of(p.Name)))),
        new("capo", 0.07, Face.Text, s => s.Capo.Value.Fret == 0 ? "–" : s.Capo.Value.Fret.ToString(CultureInfo.InvariantCulture), s => s.Capo.Value.IsPartial
            ? "partial" : ""),
        new("harmonica", 0.14, Face.Text, Harp, Position),
        new("tempo", 0.09, Face.Text, s => s.Tempo.Value.ToString("0.#", CultureInfo.InvariantCulture), s => $"in {s.Meter.Value}"),
    ];

    public static ImmutableArray<Drawing> Engrave(ImmutableArray<Song> songs, double width) =>
        [Head(width), .. songs.Select((song, i) => Row(song, i + 1, width))];

    private static Drawing Head(double width)
    {
        var sketch = new Sketch();
        foreach (var (column, left, _) in Places(width))
            sketch.Text(column.Label, left, 7, Face.Text, SmallSize, Tint.Quiet);
        return sketch.ToDrawing(width, 11);
    }

    private static Drawing Row(Song song, int number, double width)
    {
        var sketch = new Sketch();
        sketch.Line(0, 0, width, 0, 0.5, Tint.Faint);
        sketch.Text(number.ToString(CultureInfo.InvariantCulture), NumberWidth - 7, 12.5, Face.NarrowStrong, Size, Tint.Hand, Align.Right);
        var most = 1;
        foreach (var (column, left, room) in Places(width))
        {
            var lines = TextWrap.Lines(column.First(song), column.Face, Size, room);
            for (var i = 0; i < lines.Length; i++)
                sketch.Text(lines[i], left, 12.5 + i * LineHeight, column.Face, Size);
            sketch.Text(TextWrap.Cut(column.Second(song), Face.Text, SmallSize, room), left, 10 + Math.Max(1, lines.Length) * LineHeight, Face.Text,
                SmallSize, Tint.Quiet);
            most = Math.Max(most, lines.Length);
        }
        return sketch.ToDrawing(width, RowHeight + (most - 1) * LineHeight);
    }

    private const double NumberWidth = 24;

    private static IEnumerable<(Column Column, double Left, double Room)> Places(double width)
    {
        var left = NumberWidth;
        foreach (var column in Columns)
        {
            var share = column.Share * (width - NumberWidth);
            yield return (column, left, share - 8);
            left += share;
        }
    }

    private static string Hand(Song song) => CapoNames.Of(song)?.Hand(song.Key.Value) is { } key ? $"played as {PitchText.Of(key.Tonic)} {key.Mode}" : "";

    private static string Harp(Song song) =>
        song.Harp?.Value is { } harp ? PitchText.Of(harp) + (harp.Layout == HarpLayout.Usual ? "" : " " + harp.Layout) : "–";

    private static string Position(Song song)
    {
        if (song.Harp?.Value is not { } harp)
            return "";
        return OrdinalText.Of(harp.ToHarmonica().PositionFor(song.Key.Value.Tonic)) + " position";
    }
}
