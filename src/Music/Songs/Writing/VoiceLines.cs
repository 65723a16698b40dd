using System.Collections.Immutable;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs.Writing;

/// <summary>Makes lines of a few bars from the voices of a section: cells, the line's standing, and what differs from it.</summary>
internal sealed class VoiceLines(Func<int, Meter> meterOf)
{
    /// <summary>A part's line; for a pick block its head, which says the standing, and a line a string.</summary>
    public IEnumerable<TableLine> Of(SongPart part, string head, ImmutableArray<(string Label, VoiceScript Script)> voices, List<int> bars, int column, Standing standing)
    {
        if (part != SongPart.Pick)
            return [Line(head, part, voices[0].Script, bars, column, standing, StandingText.Write(standing))];
        var strings = voices.Select(v => Line(v.Label, part, v.Script, bars, column, standing, "")).ToList();
        return strings.Select(s => s with { Bars = OnGridOf(strings, s, bars) }).Prepend(new(head, [], 0, StandingText.Write(standing)));
    }

    /// <summary>The standing that most of the claims have.</summary>
    public static Standing Usual(IEnumerable<Written> claims) =>
        claims.GroupBy(c => c.Standing).MaxBy(g => g.Count())?.Key ?? Standing.Decided;

    /// <summary>Strings that rest through a bar show as many cells as the busiest, so that a block reads as tab.</summary>
    private ImmutableArray<ImmutableArray<string>> OnGridOf(List<TableLine> strings, TableLine line, List<int> bars) =>
        [.. line.Bars.Select((bar, i) => bar is ["."] ? Resting(strings.All(s => s.Bars[i] is ["."]) ? RestCells(bars[i]) : strings.Max(s => s.Bars[i].Length)) : bar)];

    private static ImmutableArray<string> Resting(int cells) => [.. Enumerable.Repeat(".", cells)];

    /// <summary>Where strokes or notes ring on through a whole bar, a dot a beat; a lone one would look as if they were played again.</summary>
    private int RestCells(int bar) => Math.Max(2, meterOf(bar).BeatsPerBar);

    private TableLine Line(string head, SongPart part, VoiceScript script, List<int> bars, int column, Standing standing, string tail)
    {
        var others = bars.SelectMany(script.Starts).Where(s => s.Standing != standing && StandingText.Mark(s.Standing) is null)
            .Select(s => StandingText.WriteAt(s.Bar, s.Start, s.Standing));
        var cells = bars.Select(bar => BarGrid.Cells(meterOf(bar), script.Events(bar, standing), part == SongPart.Strum, script.CellsWanted(bar)) is var written
            && part == SongPart.Strum && written is ["."] ? Resting(RestCells(bar)) : written);
        return new(head, [.. cells], column, string.Join(' ', others.Prepend(tail).Where(t => t.Length > 0)));
    }
}
