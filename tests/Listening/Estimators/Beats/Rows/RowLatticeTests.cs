using Harkbook.Listening.Estimators.Beats.Rows;
using Harkbook.Listening.Reading.Lattices;

namespace Harkbook.Listening.Tests.Estimators.Beats.Rows;

/// <summary>The lattice against every row written out: the defining sums, on graphs small enough for it.</summary>
public class RowLatticeTests
{
    private static readonly RowCosts Costs = new(0.1, 5, 2);

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void TheBestRowIsTheBestOfAllRows(int seed)
    {
        var (graph, scores) = Made(seed);
        var all = Rows(graph).Select(r => (Row: r, Score: Score(graph, scores, r))).ToArray();
        var lattice = new RowLattice<MaxOf>(graph, BarPlaces.None, Costs, scores);
        Assert.Equal(all.Max(r => r.Score), lattice.Total, 1e-9);
        Assert.Equal(all.MaxBy(r => r.Score).Row, lattice.Best().Select(b => b.Step));
    }

    [Theory]
    [InlineData(4)]
    [InlineData(5)]
    public void EveryStepsShareIsThatOfTheRowsThroughIt(int seed)
    {
        var (graph, scores) = Made(seed);
        var all = Rows(graph).Select(r => (Row: r, Weight: Math.Exp(Score(graph, scores, r)))).ToArray();
        var lattice = new RowLattice<LogSumOf>(graph, BarPlaces.None, Costs, scores);
        Assert.Equal(Math.Log(all.Sum(r => r.Weight)), lattice.Total, 1e-9);
        for (var s = 0; s < graph.Steps; s++)
            Assert.Equal(all.Where(r => r.Row.Contains(s)).Sum(r => r.Weight), Math.Exp(lattice.Through(s, 0)), 1e-6);
    }

    [Fact]
    public void AllThroughAnyBeatOfTheBestRowScoresAsTheRow()
    {
        var (graph, one) = Made(6);
        var random = new Random(6);
        double[] scores = [.. one.SelectMany(_ => Enumerable.Range(0, 9).Select(_ => 4 * random.NextDouble() - 1))];
        var lattice = new RowLattice<MaxOf>(graph, BarPlaces.Bars, Costs, scores);
        Assert.All(lattice.Best(), b => Assert.Equal(lattice.Total, lattice.Through(b.Step, b.Place), 1e-9));
    }

    private static (RowGraph Graph, double[] Scores) Made(int seed)
    {
        var random = new Random(seed);
        var graph = new RowGraph([0, 3, 5, 9, 12, 14, 18, 21], 4, 10);
        return (graph, [.. Enumerable.Range(0, graph.Steps).Select(_ => 4 * random.NextDouble() - 2)]);
    }

    /// <summary>All rows of steps of which each starts where the one before ends and is as long to within two frames and a third.</summary>
    private static IEnumerable<int[]> Rows(RowGraph graph)
    {
        var open = new Stack<int[]>(Enumerable.Range(0, graph.Steps).Where(s => graph.Start(s) < 0).Select(s => new[] { s }));
        while (open.TryPop(out var row))
        {
            yield return row;
            for (var s = 0; s < graph.Steps; s++)
            {
                var last = row[^1];
                var near = graph.Interval(last) == 0 || Math.Abs(graph.Interval(last) - graph.Interval(s)) <= 2 + graph.Interval(s) / 3;
                if (graph.Start(s) >= 0 && graph.Start(s) == graph.End(last) && near)
                    open.Push([.. row, s]);
            }
        }
    }

    private static double Score(RowGraph graph, double[] scores, int[] row) =>
        row.Sum(s => scores[s]) - row.Skip(1).Zip(row, (b, a) => Costs.Change(graph.Interval(a), graph.Interval(b))).Sum();
}
