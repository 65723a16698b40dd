using System.Collections.Immutable;
using Harkbook.Listening.Checking;
using Harkbook.Music.Songs;
using Harkbook.Music.Songs.Writing;
using Harkbook.Units;
using Harkbook.Workbench.Desk;

namespace Harkbook.Workbench.Sheet;

/// <summary>A bar's notes on a grid: its tune, its strings from high to low and its harmonica, over even divisions of its beats.</summary>
public sealed class NoteGrid
{
    private static readonly ImmutableArray<int> Finenesses = [1, 2, 3, 4, 6, 8, 12];

    private readonly Bar bar;
    private readonly ImmutableArray<(Bar Bar, Beats Before)> sounding;

    /// <param name="number">The bar, through the song.</param>
    /// <param name="divisions">Of a beat; where they don't hold all that the bar has, the fewest that do.</param>
    /// <param name="parts">Which rows are wanted though the bar has nothing in them.</param>
    public NoteGrid(DeskView view, int number, int divisions, IReadOnlyCollection<SongPart> parts)
    {
        var song = view.Song;
        bar = song.Bars.ElementAt(number - 1);
        sounding = [.. Sounding(song, number)];
        var starts = bar.Picked.Select(p => p.Start).Concat(bar.Tune.Select(t => t.Start)).Concat(bar.Harp.Select(h => h.Start)).ToList();
        Possible = [.. Finenesses.Where(d => starts.All(s => d % s.Denominator == 0))];
        Divisions = Possible.Contains(divisions) ? divisions : Possible.FirstOrDefault(d => d >= bar.Meter.DivisionsPerBeat, Finenesses[^1]);
        Unwritten = view.Heard is { } heard ? UnwrittenNote.In(song, heard, number, Divisions) : [];
        Rows = [.. Tune(song, parts), .. Strings(song), .. Harp(song, parts)];
    }

    public int Divisions { get; }

    /// <summary>The divisions of a beat that hold all that the bar has.</summary>
    public ImmutableArray<int> Possible { get; }

    public ImmutableArray<NoteRow> Rows { get; }

    /// <summary>Notes that were heard in the bar and aren't written, the surest first.</summary>
    public ImmutableArray<UnwrittenNote> Unwritten { get; }

    public int Columns => bar.Meter.BeatsPerBar * Divisions;

    public Beats At(int column) => Beats.Fraction(column, Divisions);

    /// <summary>"2", "2 and", "2 and 2/3".</summary>
    public string Spoken(int column) => $"beat {column / Divisions + 1}"
        + (column % Divisions == 0 ? "" : column % Divisions * 2 == Divisions ? " and" : $" and {Beats.Fraction(column % Divisions, Divisions)}");

    private IEnumerable<NoteRow> Strings(Song song) => Enumerable.Range(0, song.Tuning.Value.Count).Reverse().Select(i => Row(SongPart.Pick, i,
        song.Tuning.Value.Strings[i].ToString(), b => b.Picked.Where(p => p.Value.StringIndex == i), PickedText.Of));

    private IEnumerable<NoteRow> Tune(Song song, IReadOnlyCollection<SongPart> parts) =>
        parts.Contains(SongPart.Tune) || song.Bars.Any(b => !b.Tune.IsEmpty) ? [Row(SongPart.Tune, -1, "tune", b => b.Tune, t => t.ToString())] : [];

    private IEnumerable<NoteRow> Harp(Song song, IReadOnlyCollection<SongPart> parts) =>
        parts.Contains(SongPart.Harp) || song.Harp is not null || song.Bars.Any(b => !b.Harp.IsEmpty)
            ? [Row(SongPart.Harp, -1, "harp", Breaths, b => b)] : [];

    private static IEnumerable<Claim<string>> Breaths(Bar of) => of.Harp.GroupBy(h => h.Start)
        .Select(g => new Claim<string>(g.Key, g.First().Length, string.Join('&', g.Select(h => h.Value)), g.First().Standing));

    private NoteRow Row<T>(SongPart part, int stringIndex, string label, Func<Bar, IEnumerable<Claim<T>>> claims, Func<T, string> written) =>
        new(part, stringIndex, label, [.. Enumerable.Range(0, Columns).Select(column =>
        {
            var at = At(column);
            var here = claims(bar).FirstOrDefault(c => c.Start == at);
            var rings = sounding.Any(s => claims(s.Bar).Any(c => c.Start - s.Before < at && c.Start - s.Before + c.Length > at));
            var heard = part == SongPart.Pick ? Unwritten.FirstOrDefault(u => u.At == at && u.Place?.StringIndex == stringIndex) : null;
            return new NoteCell(here is null ? null : written(here.Value), here?.Standing, rings, heard);
        })]);

    /// <summary>The bars whose notes may still sound in this one, each with how many beats before it it starts.</summary>
    private static IEnumerable<(Bar, Beats)> Sounding(Song song, int number)
    {
        var before = Beats.Zero;
        foreach (var earlier in song.Bars.Take(number).Reverse().Take(Claim<PickedNote>.LongestHold + 1))
        {
            before += earlier.Number == number ? Beats.Zero : earlier.Meter.BarLength;
            yield return (earlier, before);
        }
    }
}
