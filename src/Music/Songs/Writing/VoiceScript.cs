using System.Collections.Immutable;
using Harkbook.Music.Songs.Reading;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Writing;

/// <summary>One value of a voice, ready to write.</summary>
internal sealed record Written(int Bar, Beats Start, Beats Length, string Text, Standing Standing)
{
    public bool IsSung { get; init; }

    /// <summary>With the mark that its standing needs in a line of another; a word that would take a bare "?" for its own stands in quotes.</summary>
    public string In(Standing line)
    {
        var mark = Standing == line ? null : StandingText.Mark(Standing);
        return (mark is not null && CellMark.At(Text + mark, IsSung) < 0 ? Quoted.Wrap(Text) : Text) + mark;
    }
}

/// <summary>A voice of a section as starts and silences by bar (1 = the section's first).</summary>
internal sealed class VoiceScript
{
    private readonly ILookup<int, Written> startsByBar;
    private readonly ILookup<int, Beats> endsByBar;
    private readonly HashSet<int> sounding = [];

    public VoiceScript(ImmutableArray<Bar> bars, IEnumerable<Written> values)
    {
        var starts = values.OrderBy(v => v.Bar).ThenBy(v => v.Start).DistinctBy(v => (v.Bar, v.Start)).ToList();
        startsByBar = starts.ToLookup(s => s.Bar);
        var ends = starts.Select((s, i) => End(bars, s, i + 1 < starts.Count ? starts[i + 1] : null)).ToList();
        endsByBar = ends.OfType<(int Bar, Beats At)>().ToLookup(e => e.Bar, e => e.At);
        for (var i = 0; i < starts.Count; i++)
            sounding.UnionWith(Enumerable.Range(starts[i].Bar,
                LastBar(bars, starts[i], i + 1 < starts.Count ? starts[i + 1].Bar : bars.Length) - starts[i].Bar + 1));
    }

    /// <summary>From starts and silences as they are to stand.</summary>
    /// <param name="cells">How many cells a bar is wanted to have; 0 for the plainest.</param>
    public VoiceScript(IEnumerable<Written> starts, IEnumerable<(int Bar, Beats At)> silences, Func<int, int> cells)
    {
        CellsWanted = cells;
        startsByBar = starts.ToLookup(s => s.Bar);
        endsByBar = silences.ToLookup(e => e.Bar, e => e.At);
    }

    public Func<int, int> CellsWanted { get; } = _ => 0;

    /// <summary>Whether the voice sounds or ends in a bar, so that the bar must be written.</summary>
    public bool Needs(int bar) => sounding.Contains(bar) || endsByBar.Contains(bar);

    /// <summary>Whether a bar is written just as another voice's is.</summary>
    public bool IsAs(VoiceScript other, int bar) =>
        Needs(bar) == other.Needs(bar) && endsByBar[bar].SequenceEqual(other.endsByBar[bar])
        && startsByBar[bar].Select(s => s with { Length = Beats.Zero }).SequenceEqual(other.startsByBar[bar].Select(s => s with { Length = Beats.Zero }));

    public IEnumerable<Written> Starts(int bar) => startsByBar[bar];

    /// <summary>The bar's events, marks for standings that aren't the line's among them.</summary>
    public IReadOnlyList<CellEvent> Events(int bar, Standing line) =>
        [.. startsByBar[bar].Select(s => new CellEvent(s.Start, s.In(line))),
            .. endsByBar[bar].Select(at => new CellEvent(at, "_"))];

    /// <summary>Where the value falls silent: null when the next one takes over or the section ends first.</summary>
    private static (int, Beats)? End(ImmutableArray<Bar> bars, Written value, Written? next)
    {
        var (bar, at) = Reach(bars, value);
        var takenOver = next is not null && (next.Bar < bar || (next.Bar == bar && next.Start <= at));
        return takenOver || bar > bars.Length ? null : (bar, at);
    }

    private static int LastBar(ImmutableArray<Bar> bars, Written value, int nextBar)
    {
        var (bar, at) = Reach(bars, value);
        return Math.Max(value.Bar, Math.Min(at == Beats.Zero ? bar - 1 : bar, nextBar));
    }

    private static (int Bar, Beats At) Reach(ImmutableArray<Bar> bars, Written value)
    {
        var (bar, at) = (value.Bar, value.Start + value.Length);
        while (bar <= bars.Length && at >= bars[bar - 1].Meter.BarLength)
        {
            at -= bars[bar - 1].Meter.BarLength;
            bar++;
        }
        return (bar, at);
    }
}
