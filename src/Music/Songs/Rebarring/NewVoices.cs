using Harkbook.Music.Songs.Reading;
using Harkbook.Music.Songs.Writing;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Rebarring;

/// <summary>What every voice says in each new bar.</summary>
internal sealed class NewVoices
{
    private readonly SongAxis line;
    private readonly BarPlan plan;
    private readonly TempoLevel level;
    private readonly Dictionary<Voice, ILookup<int, BeatEvent>> byBar;
    private readonly bool restates;

    public NewVoices(SongAxis line, BarPlan plan, TempoLevel level)
    {
        (this.line, this.plan, this.level) = (line, plan, level);
        restates = Restates();
        byBar = line.Events.ToDictionary(v => v.Key, v => Placed(v.Key, v.Value).ToLookup(e => plan.BarAt(e.At)));
    }

    public IEnumerable<Voice> All => byBar.Keys.OrderBy(v => v.Part).ThenByDescending(v => v.StringIndex);

    /// <summary>Values and silences of a bar (0 = the first), at beats from its start.</summary>
    public IEnumerable<Written> In(Voice voice, int bar) =>
        byBar.TryGetValue(voice, out var found)
            ? found[bar].Select(e => new Written(bar, level.Of(e.At - plan.Bars[bar].Start), Beats.Zero, e.Text,
            e.Standing) { IsSung = voice.Part == SongPart.Sung }) : [];

    /// <summary>Whether two bars say the same in a part.</summary>
    public bool Same(SongPart part, int bar, int other) =>
        All.Where(v => v.Part == part).All(v => In(v, bar).Select(w => w with { Bar = 0 }).SequenceEqual(In(v, other).Select(w => w with { Bar = 0 })));

    /// <summary>How a new bar's stretch is covered by a part's old bars.</summary>
    public IEnumerable<Covered> Cover(SongPart part, int bar) =>
        line.CoveredBy(part).Where(c => c.Start < plan.Bars[bar].End && c.End > plan.Bars[bar].Start);

    /// <summary>
    /// Cells as fine as those of the old bars, so that a line reads as it did; 0 where they don't fit. Chords are written plainly.
    /// </summary>
    public int CellsIn(SongPart part, int bar)
    {
        if (part == SongPart.Chords)
            return 0;
        var length = plan.Bars[bar].End - plan.Bars[bar].Start;
        var cells = Cover(part, bar).Where(c => c.Cells > 1).Select(c => Quotient(length * c.Cells, c.End - c.Start)).ToList();
        return cells.Count > 0 && cells.Max() is { Denominator: 1 } most ? most.Numerator : 0;
    }

    private static Beats Quotient(Beats a, Beats b) => a * b.Denominator / b.Numerator;

    /// <summary>A silence that nobody wrote is left out where something starts there, or a section ends of itself.</summary>
    private IEnumerable<BeatEvent> Placed(Voice voice, List<BeatEvent> events)
    {
        var borders = plan.Sections.Where(s => s.First < plan.Bars.Count).Select(s => plan.Bars[s.First].Start).ToHashSet();
        var starts = events.Where(e => e.Written).Select(e => e.At).ToHashSet();
        var all = events.Where(e => e.Written ? !e.Restates : !starts.Contains(e.At)).ToList();
        var kept = all.Where(e => e.Silences ? IsInside(e.At) && (e.Written || !borders.Contains(e.At)) : true);
        return voice.Part == SongPart.Chords ? kept.Concat(Held(all, borders)).OrderBy(e => e.At) : kept;
    }

    private bool IsInside(Beats at) => at >= plan.Bars[0].Start && at < plan.Bars[^1].End;

    /// <summary>Chords that go on over a new bar line: said again where a section starts, and in a file that does so at every bar.</summary>
    private IEnumerable<BeatEvent> Held(List<BeatEvent> events, HashSet<Beats> borders)
    {
        var (next, open) = (0, (BeatEvent?)null);
        foreach (var bar in plan.Bars)
        {
            for (; next < events.Count && events[next].At < bar.Start; next++)
                open = events[next];
            var starts = next < events.Count && events[next].At == bar.Start;
            if (!starts && open is { Silences: false } && (restates || borders.Contains(bar.Start)) && bar.Start < line.End)
                yield return open with { At = bar.Start };
        }
    }

    /// <summary>Whether the file says a chord that goes on again at every bar.</summary>
    private bool Restates()
    {
        var chords = line.Events.TryGetValue(new(SongPart.Chords), out var found) ? found : [];
        var starts = chords.Select(e => e.At).ToHashSet();
        return chords.Any(e => e.Restates && !line.SectionStarts.Contains(e.At))
            && line.CoveredBy(SongPart.Chords).Count(c => starts.Contains(c.Start)) * 10 >= line.CoveredBy(SongPart.Chords).Count * 9;
    }
}
