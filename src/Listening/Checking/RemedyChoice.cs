using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Checking;

/// <summary>The suggestions of a check that a person takes, named by their numbers ("3", "5-7") or their bars ("bar 12", "bars 12-14").</summary>
/// <param name="Taken">Findings with a remedy, each once, in the order of their numbers.</param>
public sealed record RemedyChoice(ImmutableArray<Finding> Taken)
{
    /// <summary>Findings that can be taken, in the order in which they are numbered from 1: the most doubtful first.</summary>
    public static ImmutableArray<Finding> Offered(CheckResult result) => [.. result.MostDoubtfulFirst.Where(f => f.Remedy is not null)];

    /// <summary>Reads a choice; null where a part of it is none, or names nothing that is offered, and <paramref name="wrong"/> is that part.</summary>
    public static RemedyChoice? Read(string text, CheckResult result, out string wrong)
    {
        var offered = Offered(result);
        var (taken, ofBars) = (new HashSet<Finding>(ReferenceEqualityComparer.Instance), false);
        wrong = text;
        foreach (var word in text.Split([' ', ','], StringSplitOptions.RemoveEmptyEntries))
        {
            if (!ofBars && word is "bar" or "bars")
            {
                (ofBars, wrong) = (true, word);
                continue;
            }
            wrong = ofBars ? $"bar {word}" : word;
            var found = Range(word) is not { } range ? [] : offered.Where((f, i) => ofBars ? f.Where?.Bar >= range.First
                && f.Where.Bar <= range.Last : i + 1 >= range.First && i + 1 <= range.Last).ToList();
            if (found.Count == 0)
                return null;
            taken.UnionWith(found);
            ofBars = false;
        }
        return ofBars || taken.Count == 0 ? null : new([.. offered.Where(taken.Contains)]);
    }

    /// <summary>What two of the remedies would both change; null where each changes something else.</summary>
    public string? Twice => Taken.GroupBy(f => f.Remedy!.Target).FirstOrDefault(g => g.Select(f => f.Suggestion).Distinct().Count() > 1)?.Key;

    /// <summary>What is changed beyond the places of the findings, each once, in words.</summary>
    public IEnumerable<string> Reaches => Taken.Select(f => f.Remedy!.Reach).OfType<string>().Distinct();

    public SongDocument Onto(SongDocument document) => Taken.Aggregate(document, (d, f) => f.Remedy!.Onto(d));

    private static (int First, int Last)? Range(string word)
    {
        var ends = word.Split('-');
        return ends.Length <= 2
            && int.TryParse(ends[0], NumberStyles.None, CultureInfo.InvariantCulture, out var first)
            && int.TryParse(ends[^1], NumberStyles.None, CultureInfo.InvariantCulture, out var last)
            ? (first, last) : null;
    }
}
