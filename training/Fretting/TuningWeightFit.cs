using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Listening;
using Harkbook.Listening.Estimators.Tunings;
using Harkbook.Units;

namespace Harkbook.Training.Fretting;

/// <summary>
/// Fits the weights of the tuning estimator as a conditional logit: the true open strings among all that the catalogue and a capo give.
/// Tunings at even places of the catalogue are fitted on, the others show what it is worth on tunings never fitted.
/// </summary>
internal static class TuningWeightFit
{
    private sealed record Case(double[][] Features, bool[] True, bool Held);

    public static void Run(int count, Func<int, double, MadePiece> make)
    {
        var guitars = TuningEstimator.Guitars(new()).GroupBy(g => string.Join(' ', TuningEstimator.Open(g))).Select(g => g.First()).ToArray();
        var cases = Enumerable.Range(0, count).Select(i => CaseOf(i, make(i, 30 + 40 * (i * 0.618 % 1)), guitars)).ToArray();
        var (fit, held) = (cases.Where(c => !c.Held).ToArray(), cases.Where(c => c.Held).ToArray());
        var weights = TuningWeights.Values.ToArray();
        Console.WriteLine($"before: {Score(fit, weights)}; held out: {Score(held, weights)}");
        foreach (var (name, fitted, others) in new[] { ("even tunings", fit, held), ("odd tunings", held, fit), ("all", cases, cases) })
        {
            var found = weights.ToArray();
            var speed = new double[found.Length];
            for (var pass = 0; pass < 350; pass++)
                Climb(fitted, found, speed, 0.15);
            Console.WriteLine($"fitted on {name}: {Score(fitted, found)}; on the others: {Score(others, found)}");
            Print(found);
        }
    }

    private static Case CaseOf(int i, MadePiece piece, Guitar[] guitars)
    {
        var (heard, _) = Mishearing.Of(piece.Notes, new Random(i), 0.3 + i % 4 * 0.25);
        var chords = piece.Chords.Select(c => new HeardChord(Seconds.FromSeconds(c.Start), Seconds.FromSeconds(c.End), new(new Candidate<Music.Theory.Chord>(c.Chord, 0.8)))).ToImmutableArray();
        var evidence = new TuningEvidence(heard, chords, piece.Key, new());
        var features = guitars.AsParallel().AsOrdered().Select(g => new TuningFit(evidence, g.Named.Tuning, g.Capo).Features).ToArray();
        var open = piece.Tuning.Strings.Select(s => s.Midi + piece.Capo.Fret).ToArray();
        return new(features, [.. guitars.Select(g => TuningEstimator.Open(g).SequenceEqual(open))], i % 2 == 1);
    }

    /// <summary>One step up the penalised likelihood; each weight's pace from its past gradients (Duchi et al. 2011).</summary>
    private static void Climb(Case[] cases, double[] weights, double[] speed, double pace)
    {
        var gradient = weights.Select(w => -0.01 * w * cases.Length).ToArray();
        foreach (var c in cases)
        {
            var chances = Chances(c, weights);
            var right = c.True.Select((t, g) => t ? chances[g] : 0).Sum();
            for (var g = 0; g < chances.Length; g++)
            {
                var push = (c.True[g] ? chances[g] / Math.Max(1e-9, right) : 0) - chances[g];
                for (var k = 0; k < weights.Length && Math.Abs(push) > 1e-3; k++)
                    gradient[k] += push * c.Features[g][k];
            }
        }
        for (var k = 0; k < weights.Length; k++)
        {
            speed[k] += gradient[k] * gradient[k];
            weights[k] = weights[k] + pace * gradient[k] / Math.Sqrt(speed[k] + 1e-9);
        }
    }

    private static double[] Chances(Case c, double[] weights)
    {
        var scores = new double[c.Features.Length];
        for (var g = 0; g < scores.Length; g++)
        {
            for (var k = 0; k < weights.Length; k++)
                scores[g] += c.Features[g][k] * weights[k];
        }
        var top = scores.Max();
        var chances = scores.Select(s => Math.Exp(s - top)).ToArray();
        var total = chances.Sum();
        return [.. chances.Select(x => x / total)];
    }

    private static string Score(Case[] cases, double[] weights)
    {
        var chances = cases.Select(c => (Chances: Chances(c, weights), c.True)).ToArray();
        var right = chances.Count(c => c.True[Array.IndexOf(c.Chances, c.Chances.Max())]);
        var loss = -chances.Average(c => Math.Log(Math.Max(1e-9, c.Chances.Where((_, g) => c.True[g]).Sum())));
        return string.Create(CultureInfo.InvariantCulture, $"open strings right {(double)right / cases.Length:0.000}, loss {loss:0.000} of {cases.Length}");
    }

    private static void Print(double[] weights) => Console.WriteLine(string.Join(", ", weights.Select(w => w.ToString("0.###", CultureInfo.InvariantCulture))));
}
