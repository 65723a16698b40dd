using System.Collections.Immutable;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Proposing;

/// <summary>A section's name and bars, by index.</summary>
/// <param name="Letter">The same for sections that are alike.</param>
internal sealed record PlannedSection(string Name, string Letter, int FirstBar, int EndBar, Standing Standing);

/// <summary>Puts heard sections on bars and names them. Repeats are told apart by number: "Verse 1", "A 1", "Verse 2"; a lone word has none.</summary>
internal static class SectionPlan
{
    private static readonly Named Whole = new("A", 0, "A");

    /// <param name="lines">What is sung and played beside the guitar, which names sections.</param>
    public static ImmutableArray<PlannedSection> Of(ImmutableArray<HeardSection> heard, HeardLines lines, BeatAxis line)
    {
        var (naming, starts) = (new SectionNaming(heard, lines), new SortedDictionary<int, Named>());
        for (var s = 0; s < heard.Length; s++)
        {
            var (word, sure) = naming.Of(s);
            var letter = string.IsNullOrWhiteSpace(heard[s].Label) ? "A" : heard[s].Label.Trim();
            starts[NearestBar(heard[s].Start.Value, line)] = new(word ?? letter, Math.Min(sure, heard[s].Confidence), letter);
        }
        if (line.Bars.IsEmpty)
            return [];
        Cover(starts);
        var counts = new Dictionary<string, int>();
        var firsts = starts.Keys.Where(bar => bar < line.Bars.Length).ToList();
        var words = firsts.Select(bar => starts[bar]).Where(n => n.Word != n.Letter).GroupBy(n => n.Word);
        var once = words.Where(g => g.Count() == 1).Select(g => g.Key).ToHashSet();
        return [.. firsts.Select((bar, i) => Planned(starts[bar], bar, i + 1 < firsts.Count ? firsts[i + 1] : line.Bars.Length, counts, once))];
    }

    /// <param name="Letter">The same for sections that are alike.</param>
    private readonly record struct Named(string Word, double Sure, string Letter);

    /// <summary>The first section takes in the bars before it; without any, the song is one section.</summary>
    private static void Cover(SortedDictionary<int, Named> starts)
    {
        if (starts.Count == 0)
            starts[0] = Whole;
        if (starts.First() is { Key: > 0 } first && starts.Remove(first.Key))
            starts[0] = first.Value;
    }

    private static PlannedSection Planned(Named named, int first, int end, Dictionary<string, int> counts, HashSet<string> once)
    {
        counts[named.Word] = counts.GetValueOrDefault(named.Word) + 1;
        return new(once.Contains(named.Word) ? named.Word : $"{named.Word} {counts[named.Word]}", named.Letter, first, end,
            Standing.HeardToThePercent(named.Sure));
    }

    public static int NearestBar(double time, BeatAxis line)
    {
        var place = line.Bars.IsEmpty ? 0 : line.PlaceOf(time);
        return Enumerable.Range(0, line.Bars.Length + 1).MinBy(i => Math.Abs((i < line.Bars.Length ? line.Bars[i].FirstBeat : line.Times.Length - 1) - place));
    }
}
