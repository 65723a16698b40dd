using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Songbooks;

/// <summary>One bar's strokes, wherever the songbook has them.</summary>
/// <param name="Strokes">From the bar's start.</param>
/// <param name="Uses">Songs that strum so, with the numbers of the bars.</param>
public sealed record StrumPattern(Meter Meter, ImmutableArray<(Beats At, Stroke Stroke)> Strokes, ImmutableArray<StrumUse> Uses)
{
    public int Bars => Uses.Sum(u => u.Bars.Length);

    /// <summary>Patterns of some songs, those of most songs first.</summary>
    public static ImmutableArray<StrumPattern> In(IEnumerable<Song> songs) =>
        [.. from song in songs
            from bar in song.Bars
            where !bar.Strums.IsEmpty
            let strokes = bar.Strums.OrderBy(s => s.Start).Select(s => (s.Start, s.Value)).ToImmutableArray()
            group (song, bar, strokes) by (bar.Meter, string.Join(' ', strokes)) into same
            select new StrumPattern(same.Key.Meter, same.First().strokes,
                [.. same.GroupBy(s => s.song, ReferenceEqualityComparer.Instance)
                    .Select(g => new StrumUse((Song)g.Key!, [.. g.Select(s => s.bar.Number)]))]) into pattern
            orderby pattern.Uses.Length descending, pattern.Bars descending
            select pattern];

    /// <summary>As a song file writes the bar: "d . d u . u d u".</summary>
    public override string ToString()
    {
        var grid = Enumerable.Range(1, 16).Select(n => Meter.BeatsPerBar * n)
            .FirstOrDefault(cells => Strokes.All(s => (s.At.Value * cells / Meter.BarLength.Value) % 1 is < 1e-9 or > 1 - 1e-9), Meter.BeatsPerBar * 16);
        var cells = Enumerable.Repeat(".", grid).ToArray();
        foreach (var (at, stroke) in Strokes)
            cells[(int)Math.Round(at.Value * grid / Meter.BarLength.Value)] = stroke switch { Stroke.Down => "d", Stroke.Up => "u", _ => "x" };
        return string.Join(' ', cells);
    }
}

/// <summary>Bars of one song that are strummed in one way.</summary>
public sealed record StrumUse(Song Song, ImmutableArray<int> Bars);
