using System.Collections.Immutable;
using Harkbook.Listening;
using Harkbook.Listening.Checking;
using Harkbook.Units;

namespace Harkbook.App.Doubts;

/// <summary>A stretch of a recording with the doubtful claims in it.</summary>
/// <param name="Doubts">Most doubtful first; their numbers in the picture count from 1.</param>
/// <param name="Lines">Claimed bar lines in it and a little beyond, with their numbers where they have any.</param>
/// <param name="Beats">Claimed beats.</param>
internal sealed record DoubtPicture(string Name, Seconds From, Seconds To, ImmutableArray<Finding> Doubts, ImmutableArray<(Seconds At, int? Bar)> Lines,
    ImmutableArray<Seconds> Beats)
{
    private const double Longest = 9, Margin = 0.6;

    /// <summary>The doubtful places of a check, those near one another together, the most doubtful first.</summary>
    /// <param name="most">How many pictures at most.</param>
    public static ImmutableArray<DoubtPicture> Of(CheckResult result, ImmutableArray<Seconds> beats, Seconds length, int most)
    {
        var lines = result.Findings.Where(f => f.Kind == ClaimKind.Bar && f.Where is not null).Select(f => (f.Where!.Time, f.Where.Bar)).ToImmutableArray();
        var doubts = result.Findings.Where(f => f.Verdict != Verdict.Supported && f.Where is not null).OrderBy(f => f.Where!.Time).ToList();
        var pictures = new List<DoubtPicture>();
        while (doubts.Count > 0)
        {
            var first = doubts[0].Where!.Time;
            var near = doubts.TakeWhile(f => (f.Where!.Time - first).Value < Longest - 2 * Margin - 2).ToList();
            doubts.RemoveRange(0, near.Count);
            var (from, to) = Around(first, near[^1].Where!.Time, lines, length);
            pictures.Add(new(NameOf(near, from), from, to, [.. near.OrderBy(f => f.Support)], lines, [.. beats.Where(b => b >= from && b <= to)]));
        }
        return [.. pictures.OrderBy(p => p.Doubts[0].Support).Take(most)];
    }

    /// <summary>From the bar line before the first doubt to the one behind the last, where these are near; else a little around.</summary>
    private static (Seconds, Seconds) Around(Seconds first, Seconds last, ImmutableArray<(Seconds At, int? Bar)> lines, Seconds length)
    {
        var margin = Seconds.FromSeconds(Margin);
        var before = lines.Select(l => l.At).Where(t => t <= first && (first - t).Value < 3).DefaultIfEmpty(first - margin).Max();
        var after = lines.Select(l => l.At).Where(t => t > last && (t - last).Value < 3).DefaultIfEmpty(last + margin * 2).Min();
        var (from, to) = (before - Seconds.FromSeconds(0.3), after + Seconds.FromSeconds(0.15));
        return (from.Value < 0 ? default : from, to > length ? length : to);
    }

    private static string NameOf(List<Finding> doubts, Seconds from)
    {
        var bars = doubts.Select(f => f.Where!.Bar).OfType<int>().ToArray();
        return bars.Length == 0 ? $"at-{(int)from.Value / 60}m{(int)from.Value % 60:00}s" : bars.Min() == bars.Max() ? $"bar-{bars.Min():000}"
            : $"bars-{bars.Min():000}-{bars.Max():000}";
    }
}
