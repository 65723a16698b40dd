using Harkbook.Listening.Estimators.Tunings;

namespace Harkbook.Training.Fretting;

/// <summary>
/// Fits the network that weighs tunings: the true open strings among all that the catalogue and a capo give, and among those that differ from the
/// true ones on one string. A quarter of the pieces are in tunings of no catalogue.
/// </summary>
internal static class TuningWeightFit
{
    /// <param name="make">A piece in a tuning; the number says which composer's and fixes all else.</param>
    /// <param name="hear">Rendered pieces as they were heard, to judge on; they choose no weight.</param>
    /// <param name="tries">Whether to show first what a fit is worth on a maker and on tunings that it hasn't seen, and a weighed sum and a smaller network.</param>
    public static void Run(int count, string path, Func<int, double, MadePiece>[] make, int rendered, Func<int, (MadePiece Piece, Listening.Hearing Heard)> hear, bool tries)
    {
        var cases = Enumerable.Range(0, count).AsParallel().AsOrdered().Select(i => CaseOf(i, make[i % make.Length](i / make.Length, 25 + 45 * (i * 0.618 % 1)), i % make.Length)).ToArray();
        var judged = Enumerable.Range(0, rendered).AsParallel().AsOrdered().Select(i => CaseOf(hear(i))).ToArray();
        Console.WriteLine($"{cases.Length} pieces, {cases.Average(c => c.Features.Length):0} candidates each");
        for (var composer = 0; composer < make.Length && tries; composer++)
            Try($"composer {composer} held out", cases, c => c.Composer == composer);
        if (tries)
            Try("even tunings held out", cases, c => c.IsEven);
        foreach (var units in tries ? new[] { 0, 8, 24 } : [24])
        {
            var chosen = new RankingNetwork(cases, 11, units);
            Console.WriteLine($"{units} units: {chosen.Score(cases)}; rendered {chosen.Score(judged)}");
            chosen.Write($"{path}.{units}");
        }
    }

    private static void Try(string name, RankingCase[] cases, Func<RankingCase, bool> held)
    {
        var network = new RankingNetwork([.. cases.Where(c => !held(c))], 11, 0);
        Console.WriteLine($"{name}: fitted {network.Score([.. cases.Where(c => !held(c))])}; held out {network.Score([.. cases.Where(held)])}");
    }

    private static RankingCase CaseOf((MadePiece Piece, Listening.Hearing Heard) rendered)
    {
        var evidence = new TuningEvidence(rendered.Heard.Notes, rendered.Heard.Keys[0].Key.Best, new());
        var truth = rendered.Piece.Tuning.Strings.Select(s => s.Midi + rendered.Piece.Capo.Fret).ToArray();
        var candidates = TuningEstimator.Guitars(new()).Select(g => TuningEstimator.Open(g).ToArray()).DistinctBy(o => string.Join(' ', o)).ToArray();
        return new(TuningWeigher.Against([.. candidates.Select(o => new TuningFit(evidence, o))]), Array.FindIndex(candidates, o => o.SequenceEqual(truth)), 0, false, candidates.Length);
    }

    /// <param name="i">The composers take turns, each with one tuning after another.</param>
    private static RankingCase CaseOf(int i, MadePiece piece, int composer)
    {
        var random = new Random(i);
        var (heard, _) = Mishearing.Of(piece.Notes, random, 0.6 * random.NextDouble());
        var key = random.NextDouble() < 0.8 ? piece.Key : new(Music.Theory.PitchName.FromPitchClass((piece.Key.Tonic.PitchClass + (random.Next(2) == 0 ? 7 : 5)) % 12), piece.Key.Mode);
        var evidence = new TuningEvidence(heard, key, new());
        var truth = piece.Tuning.Strings.Select(s => s.Midi + piece.Capo.Fret).ToArray();
        var candidates = TuningEstimator.Guitars(new()).Select(g => TuningEstimator.Open(g).ToArray()).Append(truth).Concat(Neighbours(truth).OrderBy(_ => random.Next()).Take(12)).DistinctBy(o => string.Join(' ', o)).ToArray();
        var known = TuningEstimator.Guitars(new()).Select(g => string.Join(' ', TuningEstimator.Open(g))).Distinct().Count();
        var fits = candidates.Select(o => new TuningFit(evidence, o)).ToArray();
        return new(TuningWeigher.Against(fits), Array.FindIndex(candidates, o => o.SequenceEqual(truth)), composer, i / 4 % 2 == 0, known);
    }

    private static IEnumerable<int[]> Neighbours(int[] open) =>
        Enumerable.Range(0, open.Length).SelectMany(s => new[] { -3, -2, -1, 1, 2, 3 }, (s, by) => open.Select((p, other) => other == s ? p + by : p).ToArray());
}

/// <summary>What a network is shown of each candidate of a piece, and which is the true one.</summary>
/// <param name="Known">How many of them, first in the list, the catalogue has.</param>
internal sealed record RankingCase(float[][] Features, int True, int Composer, bool IsEven, int Known);
