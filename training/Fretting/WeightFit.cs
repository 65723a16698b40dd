using System.Globalization;
using Harkbook.Listening.Estimators.Fretting;

namespace Harkbook.Training.Fretting;

/// <summary>Moves one weight of the search after another, keeping what places more notes of made pieces on their true strings.</summary>
internal static class WeightFit
{
    private sealed record Heard(MadePiece Piece, System.Collections.Immutable.ImmutableArray<Listening.HeardNote> Notes, int[] Source);

    public static void Run(int count, int rounds, Func<int, double, MadePiece> make)
    {
        var pieces = Enumerable.Range(0, count).Select(i =>
        {
            var piece = make(i, 40);
            var (notes, source) = Mishearing.Of(piece.Notes, new Random(i), i % 3 == 0 ? 0.3 : 1);
            return new Heard(piece, notes, source);
        }).ToArray();
        var (random, best) = (new Random(3), FretWeights.Usual);
        var score = Score(pieces, best);
        Console.WriteLine($"start {score:0.0000}");
        var properties = typeof(FretWeights).GetProperties().Where(p => p.PropertyType == typeof(double)).ToArray();
        for (var round = 0; round < rounds; round++)
        {
            var next = best with { };
            for (var k = 0; k < 1 + random.Next(2); k++)
            {
                var property = properties[random.Next(properties.Length)];
                property.SetValue(next, (double)property.GetValue(next)! * Math.Exp(0.8 * (random.NextDouble() - 0.5) * 2));
            }
            var now = Score(pieces, next);
            if (now <= score)
                continue;
            (best, score) = (next, now);
            Console.WriteLine($"{round} {score:0.0000} " + string.Join(" ", properties.Select(p => string.Create(CultureInfo.InvariantCulture, $"{p.Name}={p.GetValue(best):0.00}"))));
        }
    }

    private static double Score(Heard[] pieces, FretWeights weights) => pieces.AsParallel().Average(p =>
    {
        var path = Fretter.Find(p.Notes, new(p.Piece.Tuning, p.Piece.Capo), weights);
        var all = Enumerable.Range(0, p.Notes.Length).Where(n => p.Source[n] >= 0).ToArray();
        return all.Length == 0 ? 1 : all.Count(n => path.Strings[n] == p.Piece.Notes[p.Source[n]].StringIndex) / (double)all.Length;
    });
}
