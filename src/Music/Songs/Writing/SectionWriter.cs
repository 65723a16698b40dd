using System.Collections.Immutable;
using System.Text;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs.Writing;

/// <summary>Writes a section's bars, a few a line, part under part.</summary>
/// <param name="like">In what it differs from the section that it is like; null where it is written out.</param>
internal sealed class SectionWriter(Section section, Meter songMeter, Tuning tuning, StringBuilder text, LikeDifference? like = null)
{
    private const int BarsPerLine = 4;

    private readonly Dictionary<SongPart, int> nextBar = [];
    private readonly VoiceLines lines = new(bar => section.Bars[bar - 1].Meter);
    private Dictionary<SongPart, Repetition> repeated = [];

    public void Write()
    {
        var voices = Voices();
        var patterns = voices.Where(v => repeated.ContainsKey(v.Key) && IsWhole(v.Key)).SelectMany(v => PatternLines(v.Key, [.. v])).ToList();
        var blocks = Blocks().Select(b => (b.First, Lines: voices.SelectMany(v => PartLines(v.Key, [.. v], b.First, b.Count)).ToList())).ToList();
        var heads = blocks.SelectMany(b => b.Lines).Select(l => l.Head.Length).Append(10).Max();
        if (patterns.Count > 0)
            LineTable.Append(text, patterns, patterns.Max(p => p.Bars.IsEmpty ? 0 : p.Head.Length) + 1);
        var meter = songMeter;
        foreach (var (first, table) in blocks)
        {
            if (like is null && section.Bars[first - 1].Meter is var now && now != meter)
                text.Append($"{"meter",-10} {meter = now}{(first > 1 ? $" from {first}" : "")}\n");
            if (table.Count > 0)
                LineTable.Append(text, table, heads + 1);
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
        repeated = voices.Where(v => v.Part is SongPart.Strum or SongPart.Pick).GroupBy(v => v.Part, v => v.Script)
            .Select(p => (Part: p.Key, Found: VoiceLines.RepetitionOf([.. p], section.Bars.Length, bar => section.Bars[bar - 1].Meter))).Where(p =>
                p.Found is not null && (like is null || p.Found.First == 1)).ToDictionary(p => p.Part, p => p.Found!);
        if (like is null && bars.Length > 0 && voices.All(v => v.Part != SongPart.Chords)
            && voices.GroupBy(v => v.Part, v => v.Script).All(p => repeated.ContainsKey(p.Key) || IsSparse(p.Key, p)))
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

    private IEnumerable<TableLine> PatternLines(SongPart part, ImmutableArray<(string Label, VoiceScript Script)> voices) =>
        lines.OfPattern(part, "", voices, repeated[part], section.Bars.Length);

    private IEnumerable<TableLine> PartLines(SongPart part, ImmutableArray<(string Label, VoiceScript Script)> voices, int first, int count)
    {
        if (!IsWhole(part))
            return RunsOf(like!.Of(part).Where(bar => bar >= first && bar < first + count))
                .SelectMany(run => BarLines(part, voices, run, run[0] - first, isFrom: true)).ToList();
        if (repeated.TryGetValue(part, out var repetition))
            return RunsOf(repetition.Others.Where(bar => bar >= first && bar < first
                + count)).SelectMany(run => BarLines(part, voices, run, run[0] - first)).ToList();
        var needed = Enumerable.Range(first, count).Where(bar => voices.Any(v => v.Script.Needs(bar))).ToList();
        var isSparse = IsSparse(part, voices.Select(v => v.Script));
        if (isSparse && needed.Count == 0)
            return [];
        var start = isSparse ? needed[0] : first;
        return BarLines(part, voices, [.. Enumerable.Range(start, first + count - start)], start - first, isFrom: isSparse && start == 1);
    }

    /// <summary>Whether all bars of a part are given, not only some that differ.</summary>
    private bool IsWhole(SongPart part) => like is null || like.Of(part).Length > section.Bars.Length / 2;

    /// <summary>Whether a part leaves lines of bars out: it says from which bar on it is given, and is silent elsewhere.</summary>
    private bool IsSparse(SongPart part, IEnumerable<VoiceScript> scripts) => like is null && part != SongPart.Chords
        && Blocks().Select((block, i) => (Block: block, IsFirst: i == 0)).Any(b => b.IsFirst && !scripts.Any(s => s.Needs(1))
            || !Enumerable.Range(b.Block.First, b.Block.Count).Any(bar => scripts.Any(s => s.Needs(bar))));

    /// <summary>Numbers as runs of neighbours.</summary>
    private static IEnumerable<List<int>> RunsOf(IEnumerable<int> bars) =>
        bars.Select((bar, i) => (bar, Run: bar - i)).GroupBy(b => b.Run, b => b.bar).Select(g => g.ToList());

    private IEnumerable<TableLine> BarLines(SongPart part, ImmutableArray<(string Label, VoiceScript Script)> voices, List<int> bars, int column,
        bool isFrom = false)
    {
        var next = nextBar.GetValueOrDefault(part, 1);
        nextBar[part] = bars[^1] + 1;
        var head = part.ToString().ToLowerInvariant() + (isFrom || bars[0] > next ? $" from {bars[0]}" : "");
        return lines.Of(part, head, voices, bars, column, VoiceLines.Usual(bars.SelectMany(bar => voices.SelectMany(v => v.Script.Starts(bar)))));
    }
}
