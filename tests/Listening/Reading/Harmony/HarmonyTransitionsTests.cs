using Harkbook.Listening.Estimators.Keys;
using Harkbook.Listening.Reading.Harmony;
using Harkbook.Listening.Reading.Lattices;

namespace Harkbook.Listening.Tests.Reading.Harmony;

public class HarmonyTransitionsTests
{
    private const int Chords = 3;
    private const int States = KeyCandidate.Count * Chords;

    // The short way over keys and chords must be the long one: every score from every state to every other, written out.
    [Theory]
    [InlineData(true, 1)]
    [InlineData(false, 2)]
    public void TheShortWayIsTheLongOne(bool keysMayChange, int seed)
    {
        var random = new Random(seed);
        double[] Row(int count) => [.. Enumerable.Range(0, count).Select(_ => Math.Log(random.NextDouble() + 1e-3))];
        double[][] priors = [.. Enumerable.Range(0, KeyCandidate.Count).Select(_ => Row(Chords))];
        var costs = new double[KeyCandidate.Count, KeyCandidate.Count];
        foreach (var (from, to) in Enumerable.Range(0, costs.Length).Select(i => Math.DivRem(i, KeyCandidate.Count)))
            costs[from, to] = from == to ? 0 : random.Next(1, 4);
        var ordered = new HarmonyTransitions(0.3, priors, keysMayChange ? costs : null);
        var dense = DenseTransitions.Of(States, States, (from, to) => ordered[from, to]);
        double[][] scores = [.. Enumerable.Range(0, 4).Select(_ => Row(States))];

        var (expected, actual) = (new Lattice(new TableModel(scores, _ => dense)), new Lattice(new TableModel(scores, _ => ordered)));

        Assert.Equal(expected.Best().States, actual.Best().States);
        Assert.All(expected.MaxMarginals().Zip(actual.MaxMarginals()), step =>
            Assert.All(step.First.Zip(step.Second), pair => Assert.Equal(pair.First, pair.Second, 1e-9)));
    }
}
