using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving.Rows;
using Harkbook.Units;

namespace Harkbook.Publishing.Engraving.Sheets;

/// <summary>A chord on a row: which of its bar's chords, and the box that its name stands in.</summary>
public readonly record struct RowChord(int Index, Box Box);

/// <summary>A bar on a row, with where its beats and chords stand in the row's drawing.</summary>
public sealed class RowBar
{
    private readonly BarSlot slot;

    internal RowBar(BarSlot slot, ImmutableArray<RowChord> chords) => (this.slot, Chords) = (slot, chords);

    public Bar Bar => slot.Bar;

    public double Left => slot.Left;

    public double Right => slot.Right;

    public ImmutableArray<RowChord> Chords { get; }

    /// <summary>Where a beat of the bar stands.</summary>
    public double X(Beats at) => slot.X(at);
}

/// <summary>A row of bars as it is printed, and its section (0 is the song's first).</summary>
public sealed record OpenRow(int Section, Drawing Drawing, ImmutableArray<RowBar> Bars);

/// <summary>
/// A song engraved row by row, as on its sheet, with where everything stands: for a sheet that lies open to be worked on. Each bar is written out, so that
/// each can be pointed at.
/// </summary>
public static class OpenSheet
{
    private const double ChordSize = 13;

    /// <param name="width">Of a row, in points.</param>
    /// <param name="mostBars">How many bars a row holds at most.</param>
    public static ImmutableArray<OpenRow> Engrave(Song song, double width, int mostBars)
    {
        var chords = new ChordRow(song, ChordSize);
        var clock = song.Recording is null ? null : new SongClock(song);
        var systems = new BarSystems(SongRows.WrittenOut(song, chords), width, clock, mostBars) { StarsCorrections = true };
        return [.. song.Sections.SelectMany((section, index) => systems.WithSlots(section.Bars)
            .Select(system => new OpenRow(index, system.Drawing, [.. system.Slots.Select(s => Bar(s, chords))])))];
    }

    private static RowBar Bar(BarSlot slot, ChordRow chords) => new(slot,
        [.. slot.Bar.Chords.Select((c, i) => new RowChord(i, Box.At(slot.X(c.Start) - 2, BarSystems.Top, Math.Max(10, chords.Room(slot, i)),
            ChordSize * 1.42)))]);
}
