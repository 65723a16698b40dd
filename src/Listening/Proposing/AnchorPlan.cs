using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Proposing;

/// <summary>
/// Which bars of a proposed song are tied to times: the fewest whose straight lines keep every heard beat within 25 ms, and every bar whose start
/// a person put down, at the person's time and as decided.
/// </summary>
internal sealed class AnchorPlan
{
    /// <summary>How far a heard beat may lie from the line between anchors, in seconds.</summary>
    private const double Tolerance = 0.025;

    /// <summary>How far a claimed start may lie from the bar that it starts, in seconds: a scorer's window for beats (MIREX, 70 ms).</summary>
    private const double ClaimWindow = 0.07;

    private readonly SortedDictionary<int, Anchor> byBar = [];

    /// <param name="length">The recording's; anchors lie inside it.</param>
    /// <param name="claimed">Beats that a person put down.</param>
    public AnchorPlan(BeatAxis axis, Seconds length, ImmutableArray<BeatClaim> claimed)
    {
        var starts = axis.Bars.Select((b, i) => (Bar: i, Beat: b.FirstBeat)).ToList();
        if (starts.Count > 0)
            starts.Add((starts.Count, axis.Times.Length - 1));
        var inside = starts.Where(s => axis.Times[s.Beat] >= 0 && axis.Times[s.Beat] <= length.Value).ToList();
        foreach (var i in AnchorThinning.Choose(axis.Times, [.. inside.Select(s => s.Beat)], beat => axis.Confidences[beat] is not null, Tolerance))
            byBar[inside[i].Bar] = new(0, Milliseconds(axis.Times[inside[i].Beat]))
            {
                Standing = Standing.HeardToThePercent(NearestConfidence(axis, inside[i].Beat)),
            };
        foreach (var claim in claimed.Where(c => c.PositionInBar == 1))
        {
            foreach (var (bar, _) in inside.Where(s => Math.Abs(axis.Times[s.Beat] - claim.Time.Value) <= ClaimWindow).Take(1))
                byBar[bar] = new(0, Milliseconds(claim.Time.Value));
        }
    }

    /// <summary>A section's anchors, its first bar being 1; the song's end with its last section.</summary>
    public ImmutableArray<Anchor> In(PlannedSection section, bool isLast) =>
    [
        .. byBar.Where(a => a.Key >= section.FirstBar && (a.Key < section.EndBar || (isLast && a.Key == section.EndBar)))
            .Select(a => a.Value with { Bar = a.Key - section.FirstBar + 1 }),
    ];

    private static Seconds Milliseconds(double time) => Seconds.FromSeconds(Math.Round(time, 3));

    /// <summary>A bar start that was added is as sure as the beat next to it.</summary>
    private static double NearestConfidence(BeatAxis axis, int beat) =>
        Enumerable.Range(0, axis.Confidences.Length).Where(i => axis.Confidences[i] is not null).OrderBy(i => Math.Abs(i - beat))
            .Select(i => axis.Confidences[i]).First() ?? 0;
}
