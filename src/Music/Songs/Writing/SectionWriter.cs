using System.Collections.Immutable;
using System.Text;
using Harkbook.Music.Instruments;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs.Writing;

/// <summary>Writes a section's bars, a few a line, part under part.</summary>
internal sealed class SectionWriter(Section section, Meter songMeter, Tuning tuning, StringBuilder text)
{
    private const int BarsPerLine = 4;

    private readonly Dictionary<SongPart, int> nextBar = [];

    public void Write()
    {
        var voices = Voices();
        var blocks = Blocks().Select(b => (b.First, Lines: voices.SelectMany(v => PartLines(v.Key, [.. v], b.First, b.Count)).ToList())).ToList();
        var heads = blocks.SelectMany(b => b.Lines).Select(l => l.Head.Length).Append(10).Max();
        var meter = songMeter;
        foreach (var (first, lines) in blocks)
        {
            if (section.Bars[first - 1].Meter is var now && now != meter)
                text.Append($"{"meter",-10} {meter = now}{(first > 1 ? $" from {first}" : "")}\n");
            if (lines.Count > 0)
                LineTable.Append(text, lines, heads + 1);
        }
    }

    /// <summary>Voices by part. Some part must be written whole, for the number of bars; where none starts in bar 1, that is "chords".</summary>
    private List<IGrouping<SongPart, (string Label, VoiceScript Script)>> Voices()
    {
        var bars = section.Bars;
        var voices = new List<(SongPart Part, string Label, VoiceScript Script)>();
        foreach (var part in Enum.GetValues<SongPart>().Where(p => p != SongPart.Pick))
        {
            if (SectionScript.Of(bars, part) is { } script)
                voices.Add((part, "", script));
        }
        var strings = Enumerable.Range(0, tuning.Count).Reverse().Select(i => (Index: i, Script: SectionScript.OfString(bars, i))).ToList();
        if (strings.Any(s => s.Script is not null))
            voices.AddRange(strings.Select(s => (SongPart.Pick, "  " + tuning.Strings[s.Index], s.Script ?? new VoiceScript(bars, []))));
        if (bars.Length > 0 && voices.All(v => v.Part != SongPart.Chords) && !voices.Any(v => v.Script.Needs(1)))
            voices.Insert(0, (SongPart.Chords, "", new VoiceScript(bars, [])));
        return [.. voices.GroupBy(v => v.Part, v => (v.Label, v.Script))];
    }

    /// <summary>Bars that share lines: four, fewer where the meter changes.</summary>
    private IEnumerable<(int First, int Count)> Blocks()
    {
        for (var first = 1; first <= section.Bars.Length;)
        {
            var meter = section.Bars[first - 1].Meter;
            var count = section.Bars.Skip(first - 1).Take(BarsPerLine).TakeWhile(b => b.Meter == meter).Count();
            yield return (first, count);
            first += count;
        }
    }

    private IEnumerable<TableLine> PartLines(SongPart part, ImmutableArray<(string Label, VoiceScript Script)> voices, int first, int count)
    {
        var whole = part == SongPart.Chords || voices.Any(v => v.Script.Needs(1));
        var next = nextBar.GetValueOrDefault(part, 1);
        var needed = Enumerable.Range(first, count).Where(bar => voices.Any(v => v.Script.Needs(bar))).ToList();
        if (!whole && needed.Count == 0)
            return [];
        var start = whole ? first : needed[0];
        var bars = Enumerable.Range(start, first + count - start).ToList();
        nextBar[part] = first + count;
        var head = part.ToString().ToLowerInvariant() + (start > next ? $" from {start}" : "");
        return part == SongPart.Pick ? PickLines(head, voices, bars, start - first) : [Line(head, voices[0].Script, bars, start - first, null)];
    }

    private IEnumerable<TableLine> PickLines(string head, ImmutableArray<(string Label, VoiceScript Script)> voices, List<int> bars, int column)
    {
        var standing = Usual(bars.SelectMany(bar => voices.SelectMany(v => v.Script.Starts(bar))));
        var strings = voices.Select(v => Line(v.Label, v.Script, bars, column, standing)).ToList();
        return strings.Select(s => s with { Bars = OnGridOf(strings, s) }).Prepend(new(head, [], 0, StandingText.Write(standing)));
    }

    /// <summary>Strings that rest through a bar show as many cells as the busiest, so that a block reads as tab.</summary>
    private static ImmutableArray<ImmutableArray<string>> OnGridOf(List<TableLine> strings, TableLine line) =>
        [.. line.Bars.Select((bar, i) => bar is ["."] ? [.. Enumerable.Repeat(".", strings.Max(s => s.Bars[i].Length))] : bar)];

    private TableLine Line(string head, VoiceScript script, List<int> bars, int column, Standing? ofBlock)
    {
        var starts = bars.SelectMany(script.Starts).ToList();
        var standing = ofBlock ?? Usual(starts);
        var others = starts.Where(s => s.Standing != standing && StandingText.Mark(s.Standing) is null).Select(s => StandingText.WriteAt(s.Bar, s.Start, s.Standing));
        var cells = bars.Select(bar => BarGrid.Cells(section.Bars[bar - 1].Meter, script.Events(bar, standing), head.StartsWith("strum", StringComparison.Ordinal)));
        var tail = string.Join(' ', others.Prepend(ofBlock is null ? StandingText.Write(standing) : "").Where(t => t.Length > 0));
        return new(head, [.. cells], column, tail);
    }

    /// <summary>The standing that most of the claims have.</summary>
    private static Standing Usual(IEnumerable<Written> claims) =>
        claims.GroupBy(c => c.Standing).MaxBy(g => g.Count())?.Key ?? Standing.Decided;
}
