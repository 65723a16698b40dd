using System.Collections.Immutable;
using Harkbook.Music.Songs.Reading;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs.Writing;

/// <summary>Makes lines of a few bars from the voices of a section: cells, the line's standing, and what differs from it.</summary>
internal sealed class VoiceLines(Func<int, Meter> meterOf)
{
    /// <summary>A part's line; for a pick block its head, which says the standing, and a line a string.</summary>
    public IEnumerable<TableLine> Of(SongPart part, string head, ImmutableArray<(string Label, VoiceScript Script)> voices, List<int> bars, int column,
        Standing standing)
    {
        if (part != SongPart.Pick)
            return [Line(head, part, voices[0].Script, bars, column, standing, StandingText.Write(standing))];
        var strings = voices.Select(v => Line(v.Label, part, v.Script, bars, column, standing, "")).ToList();
        return strings.Select(s => s with { Bars = OnGridOf(strings, s, bars) }).Prepend(new(head, [], 0, StandingText.Write(standing)));
    }

    /// <summary>A part's pattern, played wherever no other line says otherwise.</summary>
    public IEnumerable<TableLine> OfPattern(SongPart part, string indent, ImmutableArray<(string Label, VoiceScript Script)> voices, Repetition pattern,
        int count)
    {
        var head = $"{indent}{part.ToString().ToLowerInvariant()} {BarLineReader.Throughout}{(pattern.First > 1 ? $" from {pattern.First}" : "")}";
        return Of(part, head, voices, [.. pattern.Pattern], 0, Usual([.. voices.Select(v => v.Script)], count));
    }

    /// <summary>Whether the voices of a part play over and over; a bar that needs more than marks for its standings stands alone.</summary>
    public static Repetition? RepetitionOf(ImmutableArray<VoiceScript> scripts, int count, Func<int, Meter> meterOf)
    {
        var standing = Usual(scripts, count);
        var texts = Enumerable.Range(1, count).Select(bar => (meterOf(bar), TextOf(scripts, bar, standing, meterOf(bar)))).ToList();
        var first = Enumerable.Range(1, count + 1).First(bar => bar > count || scripts.Any(s => s.Starts(bar).Any()));
        return Repetition.Find(texts, first);
    }

    private static string? TextOf(ImmutableArray<VoiceScript> scripts, int bar, Standing standing, Meter meter) =>
        scripts.SelectMany(s => s.Starts(bar)).ToList() is { Count: > 0 } starts
            && starts.All(s => s.Standing == standing || StandingText.Mark(s.Standing) is not null)
            ? string.Join('\n', scripts.Select(s => string.Join(' ', BarGrid.Cells(meter, s.Events(bar, standing)))))
            : null;

    private static Standing Usual(ImmutableArray<VoiceScript> scripts, int count) =>
        Usual(Enumerable.Range(1, count).SelectMany(bar => scripts.SelectMany(s => s.Starts(bar))));

    /// <summary>The standing that most of the claims have.</summary>
    public static Standing Usual(IEnumerable<Written> claims) =>
        claims.GroupBy(c => c.Standing).MaxBy(g => g.Count())?.Key ?? Standing.Decided;

    /// <summary>Strings that rest through a bar show as many cells as the busiest, so that a block reads as tab.</summary>
    private ImmutableArray<ImmutableArray<string>> OnGridOf(List<TableLine> strings, TableLine line, List<int> bars) =>
        [.. line.Bars.Select((bar, i) => bar is ["."] ? Resting(strings.All(s => s.Bars[i] is ["."]) ? RestCells(bars[i]) : strings.Max(s => s.Bars[i].Length))
            : bar)];

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
