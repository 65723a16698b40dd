using System.Collections.Immutable;
using Harkbook.Music.Songs.Reading;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Rebarring;

/// <summary>A bar to come. Its start is on the old axis of beats, below zero where the bar begins before the song.</summary>
internal sealed record NewBar(Beats Start, Beats End, Meter Meter);

/// <summary>A section to come: an old one, or the beats before the first or behind the last where those stand alone.</summary>
/// <param name="Old">The section's index before; null for beats that stand alone.</param>
internal sealed record NewSection(int? Old, int First, int End);

/// <summary>
/// Draws new bar lines. They run on from the song's start; a border of a section that a person decided, and a change of meter, begin
/// them anew, with a shorter bar before; a border that was only heard moves to the nearest bar line. Where a border would fall between
/// two beats of the new level, the bar lines run on as well.
/// </summary>
internal sealed class BarPlan
{
    /// <summary>What a section of beats before the first is called.</summary>
    public const string PickUp = "Pick-up";

    private readonly SongAxis line;
    private readonly SongSyntax syntax;
    private readonly BarChange change;
    private readonly Meter songMeter;
    private readonly Meter target;
    private readonly bool changesMeter;
    private readonly ImmutableArray<Beats> tied;
    private readonly MovedBorder? border;
    private readonly List<NewBar> bars = [];

    /// <param name="tied">Where times are tied to the old line.</param>
    /// <param name="border">A border that moves while all bars stay; null where bars are drawn anew.</param>
    public BarPlan(SongAxis line, SongSyntax syntax, BarChange change, Meter songMeter, ImmutableArray<Beats> tied, MovedBorder? border = null)
    {
        (this.line, this.syntax, this.change, this.songMeter, this.tied, this.border) = (line, syntax, change, songMeter, tied, border);
        target = change.MeterFrom(songMeter);
        changesMeter = target != change.Usual(songMeter);
        if (border is null)
            DrawBars();
        else
            bars.AddRange(line.Bars.Select(b => new NewBar(b.Start, b.End, b.Meter)));
        if (Shift < Beats.Zero)
            TakeEmptyBarsOff();
        if (bars.Count > 0)
            Sections = [.. PlanSections()];
    }

    public IReadOnlyList<NewBar> Bars => bars;

    public ImmutableArray<NewSection> Sections { get; } = [];

    /// <summary>The length of a whole new bar in old beats.</summary>
    public Beats WholeBar => change.Level.Back(target.BarLength);

    private Beats Shift => change.Later;

    /// <summary>The new bar in which a place of the old line lies.</summary>
    public int BarAt(Beats at)
    {
        var (low, high) = (0, bars.Count - 1);
        while (low < high)
        {
            var middle = (low + high + 1) / 2;
            (low, high) = bars[middle].Start <= at ? (middle, high) : (low, middle - 1);
        }
        return low;
    }

    /// <summary>The new bar line nearest to a place, the earlier of two.</summary>
    public int NearestLine(Beats at)
    {
        var bar = BarAt(at);
        return at > bars[bar].Start && at - bars[bar].Start > bars[bar].End - at ? bar + 1 : bar;
    }

    private bool IsHeard(int section) => syntax.Sections[section].Standing.Kind == StandingKind.Heard;

    private void DrawBars()
    {
        if (line.Bars.IsEmpty)
            return;
        var start = Shift;
        while (start > Beats.Zero)
            start -= WholeBar;
        foreach (var cut in Cuts().Where(c => c > start && c < line.End).Append(line.End))
        {
            var length = change.Level.Of(cut - start);
            if (length.Denominator != 1 && cut < line.End)
                continue;
            Fill(start, length, cut == line.End);
            start = cut;
        }
    }

    /// <summary>Where bar lines begin anew.</summary>
    private SortedSet<Beats> Cuts()
    {
        var cuts = new SortedSet<Beats>(Enumerable.Range(1, Math.Max(0, syntax.Sections.Count - 1)).Where(s => !IsHeard(s)).Select(s => line.SectionStarts[s]
            + Shift));
        for (var i = 1; i < line.Bars.Length; i++)
        {
            var (before, bar) = (line.Bars[i - 1], line.Bars[i]);
            if (before.Meter != bar.Meter && !(changesMeter && IsHeard(bar.Section)))
                cuts.Add(bar.Start + Shift);
        }
        if (Shift > Beats.Zero && FirstIsLiked)
            cuts.Add(Shift);
        if (Shift < Beats.Zero && LastHasLike)
            cuts.Add(line.End + Shift);
        return cuts;
    }

    private void Fill(Beats start, Beats length, bool isLast)
    {
        var unit = ReadBack(Unit(start, length));
        var fillsUp = isLast && (length.Denominator != 1 || Shift != Beats.Zero || IsHeard(line.Bars[^1].Section));
        for (var left = length; left > Beats.Zero;)
        {
            var meter = left < unit.BarLength && !fillsUp ? ReadBack(unit.OfBeats(left.Numerator)) : unit;
            bars.Add(new(start, start + change.Level.Back(meter.BarLength), meter));
            start = bars[^1].End;
            left -= meter.BarLength;
        }
    }

    /// <summary>Bars that start earlier leave a bar at either end in which nothing but a part of an old bar's silence lies. Nobody wrote it.</summary>
    private void TakeEmptyBarsOff()
    {
        while (bars is [var first, _, ..] && first.End < line.Bars[0].End && LeavesItsSection(first) && IsEmpty(first)
            && !tied.Any(t => t >= first.Start && t < first.End))
            bars.RemoveAt(0);
        while (bars is [_, .., var last] && last.Start > line.Bars[^1].Start && last.Start > line.SectionStarts[line.Bars[^1].Section] + Shift && IsEmpty(last)
            && !tied.Any(t => t > last.Start))
            bars.RemoveAt(bars.Count - 1);
    }

    /// <summary>Whether its section has more bars, or is but the pick-up that bars drawn later left.</summary>
    private bool LeavesItsSection(NewBar first) =>
        syntax.Sections[0].Name == PickUp || line.Bars.FirstOrDefault(b => b.Section > 0) is not { } next || first.End < next.Start + Shift;

    private bool IsEmpty(NewBar bar) => line.Events.Values.All(events =>
        events.LastOrDefault(e => e.At <= bar.Start) is not { Silences: false } && !events.Any(e => !e.Silences && e.At > bar.Start && e.At < bar.End));

    /// <summary>
    /// The meter of a stretch's whole bars. Bars of another meter than the song's keep it, and one such bar alone becomes bars of the song's
    /// meter where it holds as many beats, or stays one bar.
    /// </summary>
    private Meter Unit(Beats start, Beats length)
    {
        var old = line.Bars.Where(b => b.End + Shift > start && b.Start + Shift < start + change.Level.Back(length)).ToList();
        if (old.Count == 0 || old[0].Meter == songMeter || old.Any(b => b.Meter != old[0].Meter) || length.Denominator != 1)
            return target;
        if (old.Count > 1)
            return change.Usual(old[0].Meter);
        return length.Numerator % target.BeatsPerBar == 0 ? target
            : length < target.BarLength ? change.Usual(old[0].Meter).OfBeats(length.Numerator)
            : change.Usual(old[0].Meter);
    }

    /// <summary>The meter by which a bar of the new song has as many beats as meant: three eighths, each a beat, are 3/8, but one beat among bars
    /// of 6/8, so there they are written 3/4.</summary>
    private Meter ReadBack(Meter meter) => meter.Among(target).BeatsPerBar == meter.BeatsPerBar ? meter : Meter.Of(meter.BeatsPerBar, 4);

    private bool FirstIsLiked => syntax.Sections.Count > 0 && syntax.Sections.Any(s => s.Like == syntax.Sections[0]);

    private bool LastHasLike => syntax.Sections is [.., { Like: not null }];

    private IEnumerable<NewSection> PlanSections()
    {
        var starts = Enumerable.Range(0, syntax.Sections.Count).Select(s => border is { } moved && moved.Section == s ? moved.FirstBar - 1
            : s == 0 ? FirstStart() : line.SectionStarts[s] >= line.End && border is not null ? bars.Count
            : NearestLine(line.SectionStarts[s] + Shift)).ToList();
        var end = Shift < Beats.Zero && LastHasLike ? NearestLine(line.End + Shift) : bars.Count;
        if (starts.Count > 0 && starts[0] > 0)
            yield return new(null, 0, starts[0]);
        for (var i = 0; i < starts.Count; i++)
        {
            var next = i + 1 < starts.Count ? starts[i + 1] : end;
            yield return new(i, Math.Min(starts[i], end), Math.Max(starts[i], Math.Min(next, end)));
        }
        if (end < bars.Count)
            yield return new(null, end, bars.Count);
    }

    /// <summary>Beats before the first section stand in a bar of it, or alone where other sections are like it.</summary>
    private int FirstStart() => bars.Count > 0 && Shift > Beats.Zero && FirstIsLiked ? NearestLine(Shift) : 0;
}
