using System.Collections.Concurrent;

namespace Harkbook.Music.Theory;

/// <summary>Finds the shortest writing of a chord's kind: the core that needs the fewest changes, then the changes.</summary>
internal static class ChordSymbolWriter
{
    private static readonly ConcurrentDictionary<ChordQuality, string> Written = new();

    public static string Write(Chord chord) =>
        chord.IsNone ? "N.C." : chord.Root + Suffix(chord.Quality) + (chord.Bass == chord.Root ? "" : "/" + chord.Bass);

    public static string Suffix(ChordQuality quality) => quality.Intervals.IsEmpty ? "N.C." : Written.GetOrAdd(quality, static q => Cheapest(q).Text);

    /// <summary>How far the quality is from a plain kind: 0 for those with a name of their own, about 1 for each change.</summary>
    public static double Cost(ChordQuality quality) => Cheapest(quality).Cost;

    private static (string Text, double Cost) Cheapest(ChordQuality quality)
    {
        var best = Changes.Between(ChordCore.All[0], quality);
        foreach (var core in ChordCore.All.Skip(1))
        {
            var changes = Changes.Between(core, quality);
            if (changes.Cost < best.Cost - 1e-9)
                best = changes;
        }
        return (best.Text, best.Cost);
    }

    private sealed record Changes(ChordCore Core, List<Interval> Altered, List<Interval> Added, List<int> Omitted)
    {
        public double Cost => Core.Cost + Altered.Count + Added.Count + Omitted.Sum(d => d is 3 or 5 ? .9 : 1.2);

        public string Text => Core.Written + AlteredText + string.Concat(Added.Select(a => "add" + a.DegreeName)) + OmittedText;

        // A bare accidental after the root would be read as part of the root.
        private string AlteredText
        {
            get
            {
                var text = string.Concat(Altered.Select(a => a.DegreeName));
                return Core.Written.Length == 0 && text.Length > 0 ? $"({text})" : text;
            }
        }

        private string OmittedText => Omitted.Count == 0 ? "" : $"({string.Join(',', Omitted.Select(d => "no" + d))})";

        public static Changes Between(ChordCore core, ChordQuality quality)
        {
            var missing = core.Quality.Intervals.Except(quality.Intervals).ToList();
            var extra = quality.Intervals.Except(core.Quality.Intervals).ToList();
            var changes = new Changes(core, [], [], []);
            foreach (var interval in extra)
                (changes.Alters(interval, missing) ? changes.Altered : changes.Added).Add(interval);
            changes.Omitted.AddRange(missing
                .Where(m => m.Degree.Alteration != 0 || changes.Altered.All(a => a.Steps != m.Steps))
                .Select(m => m.Degree.Degree).Distinct());
            changes.Added.AddRange(core.Quality.Intervals.Except(missing).Where(i => changes.Omitted.Contains(i.Degree.Degree)));
            return changes;
        }

        private bool Alters(Interval extra, List<Interval> missing)
        {
            if (extra.Degree.Alteration == 0)
                return false;
            var plain = Interval.FromDegree(extra.Degree.Degree, 0);
            return missing.Contains(plain) || (Core.IsNumbered && !Core.Quality.Intervals.Contains(plain));
        }
    }
}
