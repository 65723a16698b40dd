using System.Collections.Immutable;
using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Proposing.Hands;

/// <summary>What the guitar's hands do in each bar: strokes over the shapes, or picked notes.</summary>
internal sealed class HandsPlan
{
    private readonly PlayingModel model = PlayingModel.Shipped;
    private readonly BeatAxis axis;
    private readonly ImmutableArray<PlannedSection> sections;
    private readonly ILookup<int, Strike> strikes;
    private readonly ImmutableArray<PlayedBar> bars;
    private readonly Dictionary<int, ImmutableArray<Claim<Stroke>>> strokes = [];
    private readonly Dictionary<int, ImmutableArray<Claim<PickedNote>>> picked = [];

    /// <param name="chords">The song's bars with their chords and shapes.</param>
    public HandsPlan(Hearing hearing, BeatAxis axis, ImmutableArray<PlannedSection> sections, ImmutableArray<Bar> chords)
    {
        (this.axis, this.sections) = (axis, sections);
        strikes = Strikes.Of(hearing, axis, chords);
        bars = new PlayedBars(model).Read(axis, strikes);
        if (strikes.Count == 0)
            return;
        var (strums, picks) = (new StrumPlacing(model, hearing, axis, chords), new PickPlacing(model, hearing, axis, strikes, bars));
        foreach (var section in sections)
        {
            foreach (var run in Runs(section))
            {
                var placed = bars[run.First].Playing == PlayedAs.Strummed ? strums.Place(run, bars) : [];
                foreach (var (bar, claims) in placed)
                    strokes[bar] = claims;
                if (bars[run.First].Playing != PlayedAs.Picked)
                    continue;
                foreach (var (bar, claims) in picks.Place(run))
                    picked[bar] = claims;
            }
        }
    }

    public ImmutableArray<Claim<Stroke>> Strums(int bar) => strokes.GetValueOrDefault(bar, []);

    public ImmutableArray<Claim<PickedNote>> Picked(int bar) => picked.GetValueOrDefault(bar, []);

    /// <summary>Stretches of a section that are played one way.</summary>
    private IEnumerable<BarRun> Runs(PlannedSection section)
    {
        for (var first = section.FirstBar; first < section.EndBar;)
        {
            var end = first + 1;
            while (end < section.EndBar && bars[end].Playing == bars[first].Playing)
                end++;
            yield return new(first, end);
            first = end;
        }
    }
}

/// <summary>Bars by index, from the first to before the end.</summary>
internal readonly record struct BarRun(int First, int End);
