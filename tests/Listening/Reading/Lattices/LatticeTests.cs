using Harkbook.Listening.Reading.Lattices;

namespace Harkbook.Listening.Tests.Reading.Lattices;

public class LatticeTests
{
    // S. Russell and P. Norvig, "Artificial Intelligence: A Modern Approach", the umbrella world: rain follows rain with 0.7, an umbrella is
    // seen with 0.9 in rain and 0.2 without. State 0 is rain.
    private static Lattice Umbrellas(params bool[] seen) => new(new TableModel(
        [.. seen.Select((u, i) => new[] { Math.Log((u ? 0.9 : 0.1) * (i == 0 ? 0.5 : 1)), Math.Log((u ? 0.2 : 0.8) * (i == 0 ? 0.5 : 1)) })],
        _ => DenseTransitions.Of(2, 2, (from, to) => Math.Log(from == to ? 0.7 : 0.3))));

    // The same book: smoothed, day one's rain is 0.883 likely after two umbrellas; so is day two's, filtered.
    [Fact]
    public void SmoothsTheUmbrellaWorld()
    {
        var posteriors = Umbrellas(true, true).Posteriors();

        Assert.Equal(0.883, posteriors[0][0], 5e-4);
        Assert.Equal(0.883, posteriors[1][0], 5e-4);
    }

    // The same book: rain on all days but the third, on which no umbrella is seen.
    [Fact]
    public void FindsTheLikeliestWeather() =>
        Assert.Equal([0, 0, 1, 0, 0], Umbrellas(true, true, false, true, true).Best().States);

    // D. Jurafsky and J. Martin, "Speech and Language Processing", hidden Markov models, ice creams 3 1 3 on hot (0) or cold days: the best
    // path's Viterbi score is .32 · .4·.5 · .5·.4 = .0128, hot cold hot.
    [Fact]
    public void DecodesTheIceCreams()
    {
        double[][] cones = [[.8 * .4, .2 * .1], [.2, .5], [.4, .1]];
        double[,] days = { { .6, .4 }, { .5, .5 } };
        var path = new Lattice(Model(cones, days)).Best();

        Assert.Equal([0, 1, 0], path.States);
        Assert.Equal(.0128, Math.Exp(path.Score), 1e-9);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void AgreesWithEveryPathWrittenOut(string kind, int steps, int seed)
    {
        var model = Drawn(kind, steps, new(seed));
        var paths = AllPaths(model);
        var total = paths.Sum(p => Math.Exp(p.Score));
        var lattice = new Lattice(model);
        var (best, posteriors, marginals) = (lattice.Best(), lattice.Posteriors(), lattice.MaxMarginals());

        Assert.Equal(paths.Max(p => p.Score), best.Score, 1e-9);
        Assert.Equal(best.Score, ScoreOf(model, best.States), 1e-9);
        for (var t = 0; t < steps; t++)
        {
            for (var s = 0; s < model.States(t); s++)
            {
                var through = paths.Where(p => p.States[t] == s).ToArray();
                Assert.Equal(through.Max(p => p.Score), marginals[t][s], 1e-9);
                if (kind != "stay or change")
                    Assert.Equal(through.Sum(p => Math.Exp(p.Score)) / total, posteriors[t][s], 1e-9);
            }
        }
    }

    // To change to the state that one is in is another way beside staying, so both count in a sum: as if each state stood there twice.
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void StayingAndChangingToTheSameAreTwoWays(int seed)
    {
        var random = new Random(seed);
        var (stay, change, scores) = (Log(random), Logs(random, 4), Rows(random, 5, 4));
        var dense = new Lattice(new TableModel(scores, _ => DenseTransitions.Of(4, 4,
            (from, to) => Math.Log((from == to ? Math.Exp(stay) : 0) + Math.Exp(change[to])))));
        var ordered = new Lattice(new TableModel(scores, _ => new StayOrChange(stay, change)));

        Assert.All(dense.Posteriors().Zip(ordered.Posteriors()), pair =>
            Assert.All(pair.First.Zip(pair.Second), p => Assert.Equal(p.First, p.Second, 1e-12)));
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void TheBestPathsAreThoseOfAllPathsInOrder(string kind, int steps, int seed)
    {
        var model = Drawn(kind, steps, new(seed));
        var expected = AllPaths(model).Select(p => p.Score).Where(double.IsFinite).OrderDescending().Take(7).ToArray();

        var paths = new Lattice(model).Best(7);

        Assert.Equal(expected, paths.Select(p => p.Score), (a, b) => Math.Abs(a - b) < 1e-9);
        Assert.Equal(paths.Count, paths.Select(p => string.Join(' ', p.States)).Distinct().Count());
        Assert.All(paths, p => Assert.Equal(p.Score, ScoreOf(model, p.States), 1e-9));
    }

    [Fact]
    public void PosteriorsOfALongLatticeStayNumbers()
    {
        var scores = Rows(new(3), 5000, 6).Select(row => Array.ConvertAll(row, s => 40 * s)).ToArray();
        var posteriors = new Lattice(new TableModel(scores, _ => StayOrChange.ByChance(0.1, Array.ConvertAll(new double[6], _ => Math.Log(1 / 6.0)))))
            .Posteriors();

        Assert.All(posteriors, row => Assert.Equal(1, row.Sum(), 1e-9));
    }

    [Fact]
    public void ALatticeWithoutStepsIsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new Lattice(new TableModel([], _ => new StayOrChange(0, []))));

    public static TheoryData<string, int, int> Kinds
    {
        get
        {
            var rows = new TheoryData<string, int, int>();
            foreach (var kind in new[] { "dense", "banded", "stay or change", "uneven" })
            {
                foreach (var (steps, seed) in new[] { (1, 1), (2, 2), (4, 3), (5, 4), (6, 5) })
                    rows.Add(kind, steps, seed);
            }
            return rows;
        }
    }

    private static TableModel Model(double[][] chances, double[,] moves) => new([.. chances.Select(row => Array.ConvertAll(row, Math.Log))],
        _ => DenseTransitions.Of(moves.GetLength(0), moves.GetLength(1), (from, to) => Math.Log(moves[from, to])));

    private static TableModel Drawn(string kind, int steps, Random random)
    {
        int[] states = [.. Enumerable.Range(0, steps).Select(t => kind == "uneven" ? 1 + random.Next(4) : 4)];
        double[][] scores = [.. states.Select(n => Logs(random, n))];
        Transitions[] into = [.. Enumerable.Range(0, steps).Select(t => Between(kind, t == 0 ? 0 : states[t - 1], states[t], random))];
        return new(scores, t => into[t]);
    }

    private static Transitions Between(string kind, int before, int after, Random random) => kind switch
    {
        "banded" => new BandedTransitions(Logs(random, 3)),
        "stay or change" => new StayOrChange(Log(random), Logs(random, after)),
        _ => DenseTransitions.Of(before, after, (_, _) => Log(random)),
    };

    private static double[][] Rows(Random random, int steps, int states) => [.. Enumerable.Range(0, steps).Select(_ => Logs(random, states))];

    private static double[] Logs(Random random, int count) => [.. Enumerable.Range(0, count).Select(_ => Log(random))];

    private static double Log(Random random) => Math.Log(random.NextDouble() + 1e-3);

    private static List<LatticePath> AllPaths(TableModel model)
    {
        IEnumerable<int[]> paths = [[]];
        for (var t = 0; t < model.Steps; t++)
        {
            var states = model.States(t);
            paths = paths.SelectMany(p => Enumerable.Range(0, states).Select(s => (int[])[.. p, s])).ToList();
        }
        return [.. paths.Select(p => new LatticePath(p, ScoreOf(model, p)))];
    }

    private static double ScoreOf(TableModel model, int[] path)
    {
        var sum = 0.0;
        for (var t = 0; t < path.Length; t++)
        {
            var scores = new double[model.States(t)];
            model.Score(t, scores);
            sum += scores[path[t]] + (t == 0 ? 0 : model.Into(t)[path[t - 1], path[t]]);
        }
        return sum;
    }
}
