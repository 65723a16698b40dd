using System.Collections.Immutable;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs;

/// <summary>
/// A part that plays the same bar, or the same few, over and over, found so that it can be written, or printed, once.
/// </summary>
/// <param name="First">The bar (1 = the section's first) from which the pattern is played.</param>
/// <param name="Pattern">For each bar of the pattern, a bar that is played so.</param>
/// <param name="Others">The bars from the first on that differ.</param>
public sealed record Repetition(int First, ImmutableArray<int> Pattern, ImmutableSortedSet<int> Others)
{
    private static readonly int[] Lengths = [1, 2, 4];

    /// <summary>The shortest way to say the bars; null where a pattern would save less than two of them.</summary>
    /// <param name="bars">What each bar says, with its meter; null where it needs a line of its own.</param>
    public static Repetition? Find(IReadOnlyList<(Meter Meter, string? Text)> bars, int first)
    {
        var best = first > bars.Count ? null
            : Lengths.Select(length => Of(bars, first, length)).OfType<Repetition>().MinBy(r => r.Pattern.Length + r.Others.Count);
        return best is not null && bars.Count - first + 1 - best.Others.Count >= best.Pattern.Length + 2
            && best.Others.Count <= (bars.Count - first + 1) / 2 ? best : null;
    }

    /// <summary>Whether a bar (1 = the section's first) is played as the pattern says.</summary>
    public bool Covers(int bar) => bar >= First && !Others.Contains(bar);

    private static Repetition? Of(IReadOnlyList<(Meter Meter, string? Text)> bars, int first, int length)
    {
        var meter = bars[first - 1].Meter;
        var pattern = Enumerable.Range(0, length).Select(phase => Usual(bars, first + phase, length, meter)).ToImmutableArray();
        return pattern.Contains(0) ? null : new(first, pattern,
            [.. Enumerable.Range(first, bars.Count - first + 1).Where(bar => bars[bar - 1].Meter != meter
                || bars[bar - 1].Text != bars[pattern[(bar - first) % length] - 1].Text)]);
    }

    /// <summary>Every so many bars from one on: the first that is as most of them are; 0 where none can be a pattern's.</summary>
    private static int Usual(IReadOnlyList<(Meter Meter, string? Text)> bars, int from, int every, Meter meter) =>
        Enumerable.Range(0, Math.Max(0, (bars.Count - from + every) / every)).Select(i => from + i * every)
            .Where(bar => bars[bar - 1].Meter == meter && bars[bar - 1].Text is not null)
            .GroupBy(bar => bars[bar - 1].Text).MaxBy(g => g.Count())?.First() ?? 0;
}
