using System.Collections.Immutable;
using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Proposing.Hands;

/// <summary>What the guitar's hands do in each bar: strokes over the shapes, or picked notes.</summary>
internal sealed class HandsPlan
{
    /// <summary>So many of a line's strikes sound one string.</summary>
    private const double Single = 0.9;

    private readonly PlayingModel model = PlayingModel.Shipped;
    private readonly ImmutableArray<Bar> chords;
    private readonly BeatAxis axis;
    private readonly ILookup<int, Strike> strikes;
    private readonly ImmutableArray<PlayedBar> bars;
    private readonly HashSet<int> lines = [];
    private readonly Dictionary<int, ImmutableArray<Claim<Stroke>>> strokes = [];
    private readonly Dictionary<int, ImmutableArray<Claim<PickedNote>>> picked = [];

    /// <param name="chords">The song's bars with their chords and shapes.</param>
    public HandsPlan(Hearing hearing, BeatAxis axis, ImmutableArray<PlannedSection> sections, ImmutableArray<Bar> chords)
    {
        (this.axis, this.chords) = (axis, chords);
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
                if (IsLine(run))
                    lines.UnionWith(Enumerable.Range(run.First, run.End - run.First));
                foreach (var (bar, claims) in picks.Place(run))
                    picked[bar] = claims;
            }
        }
    }

    public ImmutableArray<Claim<Stroke>> Strums(int bar) => strokes.GetValueOrDefault(bar, []);

    public ImmutableArray<Claim<PickedNote>> Picked(int bar) => picked.GetValueOrDefault(bar, []);

    /// <summary>Whether a bar is of a line of single notes, over which no shape is held.</summary>
    public bool IsLine(int bar) => lines.Contains(bar);

    private bool IsLine(BarRun run)
    {
        var bars = Enumerable.Range(run.First, run.End - run.First).ToArray();
        var struck = bars.SelectMany(b => strikes[b]).ToArray();
        return struck.Count(s => s.Strings == 1) >= Single * struck.Length && bars.Count(IsOutOfShapes) < Single * bars.Length;
    }

    /// <summary>Whether all that is struck in a bar lies in the shapes of its chords: then it is picked out of them.</summary>
    private bool IsOutOfShapes(int bar) => strikes[bar].SelectMany(s => s.Notes).All(n =>
        chords[bar].Chords.Any(c => c.Value.Shape is { } shape && shape.Frets[n.Place!.StringIndex] == n.Place.Fret));

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
