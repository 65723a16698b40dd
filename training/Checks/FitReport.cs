using System.Globalization;
using Harkbook.Music.Theory;

namespace Harkbook.Training.Checks;

/// <summary>How well weights find planted errors in pieces that they weren't fitted on.</summary>
internal static class FitReport
{
    private const double FalseAlarmsPerMinute = 2;

    /// <param name="minutes">Of each piece.</param>
    public static void Write(string weigher, IReadOnlyList<Example> examples, IReadOnlyDictionary<string, double> minutes)
    {
        var pieces = examples.Select(e => e.Piece).Distinct().Order(StringComparer.Ordinal).Select((p, i) => (p, i)).ToDictionary(p => p.p, p => p.i % 2);
        var weighed = new List<(Example Example, double LogOdds)>();
        foreach (var half in new[] { 0, 1 })
        {
            var weights = LogisticFit.Of([.. examples.Where(e => pieces[e.Piece] != half)]);
            weighed.AddRange(examples.Where(e => pieces[e.Piece] == half).Select(e => (e, LogisticFit.Weigh(weights, e.Features))));
        }
        var right = weighed.Where(w => w.Example.IsRight).Select(w => w.LogOdds).Order().ToArray();
        var allowed = (int)(FalseAlarmsPerMinute * pieces.Keys.Sum(p => minutes[p]));
        var limit = right[Math.Min(allowed, right.Length - 1)];
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{weigher}: {right.Length} right, limit {limit:0.00} ({allowed} alarms)"));
        foreach (var kind in weighed.Where(w => !w.Example.IsRight).GroupBy(w => w.Example.Error).OrderBy(g => g.Key, StringComparer.Ordinal))
        {
            var found = kind.Count(w => w.LogOdds < limit) / (double)kind.Count();
            var area = Area(right, [.. kind.Select(w => w.LogOdds)]);
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {kind.Key,-24} {kind.Count(),6}  found {found:0.000}  area {area:0.000}"));
        }
    }

    /// <summary>The area under the curve: how often a right claim outweighs a wrong one.</summary>
    private static double Area(double[] right, double[] wrong)
    {
        var sum = 0.0;
        foreach (var w in wrong)
        {
            var place = Array.BinarySearch(right, w);
            sum += right.Length - (place < 0 ? ~place : place);
        }
        return sum / wrong.Length / right.Length;
    }
}
