using System.Collections.Immutable;
using Harkbook.Listening.Checking;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving.Sheets;
using Harkbook.Workbench.Desk;

namespace Harkbook.Workbench.Sheet;

/// <summary>A song's rows as pictures. They are made when they are first looked at, so that a long song opens as fast as a short one.</summary>
public sealed class OpenSong
{
    /// <summary>Points that a row is wide, by how many bars it holds at most: the fewer, the larger they are on the screen.</summary>
    private static readonly ImmutableSortedDictionary<int, double> Widths =
        new Dictionary<int, double> { [1] = 250, [2] = 340, [4] = 560, [8] = 1010 }.ToImmutableSortedDictionary();

    private readonly DeskView view;
    private readonly ImmutableArray<OpenRow> rows;
    private readonly RowPicture?[] pictures;
    private readonly SongClock clock;
    private readonly RecordStrip? strip;
    private readonly ILookup<int, Finding> doubts;
    private readonly double width;

    /// <param name="barsARow">One of <see cref="Zooms"/>.</param>
    public OpenSong(DeskView view, int barsARow)
    {
        (this.view, width, clock) = (view, Widths[barsARow], new(view.Song));
        rows = OpenSheet.Engrave(view.Song, width, barsARow);
        pictures = new RowPicture?[rows.Length];
        strip = view.Heard is { } heard ? new(heard, [.. ClaimedSound.Of(view.Song), .. ClaimedSound.OfHeldShapes(view.Song)]) : null;
        doubts = (view.Doubts ?? []).Select(d => d.Finding).Where(f => f.Where?.Bar is not null).ToLookup(f => f.Where!.Bar!.Value);
    }

    public static IEnumerable<int> Zooms => Widths.Keys;

    public int Rows => rows.Length;

    public int SectionOf(int row) => rows[row].Section;

    /// <summary>The number of the first bar on a row.</summary>
    public int FirstBar(int row) => rows[row].Bars[0].Bar.Number;

    /// <summary>The row that a bar stands on.</summary>
    public int RowOf(int bar) => Math.Max(0, Array.FindIndex([.. rows], r => r.Bars[^1].Bar.Number >= bar));

    /// <summary>Width and height of a row, which need no picture of it.</summary>
    public (double Width, double Height) Size(int row) =>
        (width, rows[row].Drawing.Height + (strip is null ? 0 : RowPicture.Gap + strip.Height));

    public RowPicture Row(int row) => pictures[row] ??= Paint(row);

    private RowPicture Paint(int index)
    {
        var row = rows[index];
        var axis = new RowAxis(row, clock);
        return new(index, row.Section, width, row.Drawing.Height, SvgWriter.Marks(row.Drawing, Colour),
            strip is null ? "" : SvgWriter.Marks(strip.Draw(axis, width), Colour), strip?.Height ?? 0, [.. row.Bars.Select(Bar)], axis);
    }

    private BarPicture Bar(RowBar bar) => new(bar.Bar.Number, bar.Left, bar.Right, [.. bar.Chords.Select(c => Chord(bar.Bar, c))],
        doubts[bar.Bar.Number].Count());

    private ChordPicture Chord(Bar bar, RowChord chord)
    {
        var claim = bar.Chords[chord.Index];
        var doubt = doubts[bar.Number].FirstOrDefault(f => f.Kind == ClaimKind.Chord && Math.Abs(f.Where!.Beat!.Value - 1 - claim.Start.Value) < 1e-3);
        return new(claim, CapoNames.Of(view.Song)?.First(claim.Value.Name) ?? claim.Value.Name, chord.Box, doubt);
    }

    /// <summary>What the pages' style calls a tint's colour.</summary>
    public static string Colour(Tint tint) => $"var(--{tint.ToString().ToLowerInvariant()})";
}
