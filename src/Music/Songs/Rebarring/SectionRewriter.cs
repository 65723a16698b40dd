using System.Collections.Immutable;
using System.Text;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs.Reading;
using Harkbook.Music.Songs.Writing;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs.Rebarring;

/// <summary>Writes one section's new bars, part under part, in the order in which the file has its parts.</summary>
/// <param name="like">The section whose bars it takes over where they are the same; null where it stands for itself.</param>
internal sealed class SectionRewriter(NewSection section, NewSection? like, SectionSyntax? old, NewVoices voices, BarPlan plan, ILookup<int, KeptLine> notes,
    string indent, Tuning tuning)
{
    private const int MostBarsPerLine = 4, WidestLine = 150;

    private readonly Dictionary<SongPart, int> nextBar = [];
    private readonly Dictionary<SongPart, Repetition> repeated = [];
    private readonly VoiceLines lines = new(bar => plan.Bars[section.First + bar - 1].Meter);

    private int Count => section.End - section.First;

    public void Write(StringBuilder text, Meter songMeter)
    {
        WritePatterns(text);
        var parts = Parts().Select(p => (Part: p, Bars: Needed(p))).Where(p => p.Bars.Count > 0).ToList();
        var blocks = Blocks(parts).ToList();
        var heads = blocks.SelectMany(b => b.Lines).Select(l => l.Head.Length).Append(indent.Length + 10).Max();
        var meter = songMeter;
        foreach (var (first, count, table) in blocks)
        {
            foreach (var note in Enumerable.Range(first, count).SelectMany(NotesAt).Where(n => n.Voice is null || !IsShown(n.Voice.Value, first, count, parts)))
                text.Append(indent).Append(note.Text).Append('\n');
            if (like is null && MeterOf(first) is var now && now != meter)
                text.Append(indent).Append($"{"meter",-10} {meter = now}{(first > 1 ? $" from {first}" : "")}\n");
            if (table.Count > 0)
                LineTable.Append(text, table, heads + 1);
        }
    }

    /// <summary>What was a pattern, and still repeats, is one again.</summary>
    private void WritePatterns(StringBuilder text)
    {
        foreach (var part in like is null && old is not null ? old.Lines.Where(l => l.Repeats).Select(l => l.Voice.Part).Distinct() : [])
        {
            var scripts = Scripts(part, [.. Enumerable.Range(1, Count)]);
            if (VoiceLines.RepetitionOf([.. scripts.Select(s => s.Script)], Count, MeterOf) is not { } found)
                continue;
            repeated[part] = found;
            var table = lines.OfPattern(part, indent, scripts, found, Count).ToList();
            LineTable.Append(text, table, table.Max(l => l.Bars.IsEmpty ? 0 : l.Head.Length) + 1);
        }
    }

    private Meter MeterOf(int bar) => plan.Bars[section.First + bar - 1].Meter;

    private IEnumerable<KeptLine> NotesAt(int bar) => notes[section.First + bar - 1];

    private IEnumerable<SongPart> Parts() =>
        (old?.Lines.Select(l => l.Voice.Part) ?? []).Concat(voices.All.Select(v => v.Part)).Distinct();

    /// <summary>The bars that a part's own lines hold.</summary>
    private HashSet<int> Needed(SongPart part)
    {
        if (repeated.TryGetValue(part, out var pattern))
            return [.. pattern.Others];
        var all = Enumerable.Range(1, Count).ToHashSet();
        if (like is { } other)
        {
            var own = all.Where(b => !voices.Same(part, section.First + b - 1, other.First + b - 1)
                || voices.Cover(part, section.First + b - 1).Any(c => c.IsOwn)).ToHashSet();
            return own.Count * 2 > Count && own.Count > 2 ? all : own;
        }
        var covered = all.Where(b => voices.Cover(part, section.First + b - 1).Any()).ToHashSet();
        return covered.Count > 0 && (part == SongPart.Chords || covered.Contains(1)) ? all : covered;
    }

    private IEnumerable<(int First, int Count, List<TableLine> Lines)> Blocks(List<(SongPart Part, HashSet<int> Bars)> parts)
    {
        if (like is null && Count > 0 && parts.All(p => p.Bars.Count < Count))
            parts = [(SongPart.Chords, Enumerable.Range(1, Count).ToHashSet()), .. parts.Where(p => p.Part != SongPart.Chords)];
        for (var first = 1; first <= Count;)
        {
            var most = Enumerable.Range(first, Math.Min(MostBarsPerLine, Count - first + 1)).TakeWhile(b => MeterOf(b) == MeterOf(first)).Count();
            var before = nextBar.ToDictionary();
            var table = parts.SelectMany(p => PartLines(p.Part, p.Bars, first, most)).ToList();
            for (; most > 1 && Width(table) > WidestLine; table = [.. parts.SelectMany(p => PartLines(p.Part, p.Bars, first, most))])
            {
                most = (most + 1) / 2;
                nextBar.Clear();
                foreach (var (part, next) in before)
                    nextBar[part] = next;
            }
            yield return (first, most, ToTheLeft(table));
            first += most;
        }
    }

    /// <summary>Columns in which no line has a bar aren't left free.</summary>
    private static List<TableLine> ToTheLeft(List<TableLine> table)
    {
        var free = table.Where(l => !l.Bars.IsEmpty).Select(l => l.FirstColumn).DefaultIfEmpty(0).Min();
        return [.. table.Select(l => l with { FirstColumn = Math.Max(0, l.FirstColumn - free) })];
    }

    private static int Width(List<TableLine> table) => table.Count == 0 ? 0 : table.Max(l => l.Head.Length + l.Bars.Sum(b => b.Sum(c => c.Length + 1) + 2));

    private IEnumerable<TableLine> PartLines(SongPart part, HashSet<int> needed, int first, int count)
    {
        for (var bar = first; bar < first + count; bar++)
        {
            if (!needed.Contains(bar))
                continue;
            var run = Enumerable.Range(bar, first + count - bar).TakeWhile(needed.Contains).ToList();
            var isFirst = !nextBar.TryGetValue(part, out var next);
            var from = isFirst ? needed.Count < Count : bar > next;
            nextBar[part] = run[^1] + 1;
            var head = indent + part.ToString().ToLowerInvariant() + (from ? $" from {bar}" : "");
            foreach (var line in Lines(part, head, run, bar - first))
                yield return line;
            bar = run[^1];
        }
    }

    private IEnumerable<TableLine> Lines(SongPart part, string head, List<int> run, int column)
    {
        var (shown, scripts) = (Shown(part), Scripts(part, run));
        var standing = VoiceLines.Usual(run.SelectMany(bar => scripts.SelectMany(s => s.Script.Starts(bar))));
        var table = lines.Of(part, head, scripts, run, column, standing).ToList();
        return table.Select((l, i) => table.Count == shown.Count ? WithNotes(l, shown[i], run) : i == 0 ? l : WithNotes(l, shown[i - 1], run));
    }

    private List<Voice> Shown(SongPart part) => part == SongPart.Pick ? Strings() : [new(part)];

    private ImmutableArray<(string Label, VoiceScript Script)> Scripts(SongPart part, List<int> run) =>
        [.. Shown(part).Select(v => (indent + "  " + Label(v), Script(v, run)))];

    private string Label(Voice voice) => voice.StringIndex switch
    {
        Voice.BassIndex => StringLines.Bass,
        >= 0 and var index => tuning.Strings[index].ToString(),
        _ => "",
    };

    /// <summary>The strings that the section's blocks name or that sound; all of them where two have one pitch.</summary>
    private List<Voice> Strings()
    {
        var all = Enumerable.Range(0, tuning.Count).Reverse().Select(i => new Voice(SongPart.Pick, i)).ToList();
        var named = (old?.Lines.Select(l => l.Voice) ?? []).ToHashSet();
        var twins = tuning.Strings.Select(s => s.Midi).Distinct().Count() < tuning.Count;
        var shown = all.Append(new(SongPart.Pick, Voice.BassIndex))
            .Where(v => named.Contains(v) || (twins && v.StringIndex != Voice.BassIndex)
                || Enumerable.Range(section.First, Count).Any(b => voices.In(v, b).Any())).ToList();
        return shown.Count > 0 ? shown : all;
    }

    private VoiceScript Script(Voice voice, List<int> run)
    {
        var said = run.SelectMany(b => voices.In(voice, section.First + b - 1).Select(w => w with { Bar = b })).ToList();
        return new(said.Where(w => w.Text != "_"), said.Where(w => w.Text == "_").Select(w => (w.Bar, w.Start)),
            b => voices.CellsIn(voice.Part, section.First + b - 1));
    }

    private TableLine WithNotes(TableLine line, Voice voice, List<int> run)
    {
        var comments = run.SelectMany(NotesAt).Where(n => n.Voice == voice).Select(n => n.Text).ToList();
        return comments.Count == 0 ? line : line with { Tail = string.Join("  ", comments.Prepend(line.Tail).Where(t => t.Length > 0)) };
    }

    private bool IsShown(Voice voice, int first, int count, List<(SongPart Part, HashSet<int> Bars)> parts)
    {
        var run = Enumerable.Range(first, count).ToList();
        return parts.Any(p => p.Part == voice.Part && run.Any(b => NotesAt(b).Any(n => n.Voice == voice) && p.Bars.Contains(b)))
            && (voice.Part != SongPart.Pick || Strings().Contains(voice));
    }
}
