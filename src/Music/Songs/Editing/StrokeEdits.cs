using System.Collections.Immutable;
using Harkbook.Music.Songs.Reading;
using Harkbook.Music.Songs.Writing;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Editing;

/// <summary>Puts other strokes into bars of a section; each stroke rings until the next.</summary>
internal sealed class StrokeEdits(SongSyntax syntax, Meter songMeter)
{
    /// <param name="bars">Of the section (1 = its first), rising.</param>
    /// <param name="strokes">In order of start, the same in every bar; none for silence.</param>
    public IEnumerable<TextEdit> SetBars(int sectionIndex, IReadOnlyList<int> bars, IReadOnlyList<(Beats Start, Stroke Stroke)> strokes)
    {
        var section = syntax.Sections[sectionIndex];
        foreach (var bar in bars)
        {
            if (bar < 1 || bar > section.BarCount || strokes.Any(s => s.Start < Beats.Zero || s.Start >= section.MeterOf(bar, songMeter).BarLength))
                throw new ArgumentOutOfRangeException(nameof(bars), bar, $"These strokes don't fit bar {bar} of {section.Name}.");
        }
        ImmutableArray<CellEvent> events = strokes.Count == 0 ? [new(Beats.Zero, "_")] : [.. strokes.Select(s => new CellEvent(s.Start, Sign(s.Stroke)))];
        return new BarCellEdits(syntax, new(SongPart.Strum), "strum").SetBars(section, bars,
            bar => $" {string.Join(' ', BarGrid.Cells(section.MeterOf(bar, songMeter), events, runTogether: true))} ");
    }

    private static string Sign(Stroke stroke) => stroke switch { Stroke.Down => "d", Stroke.Up => "u", _ => "x" };
}
