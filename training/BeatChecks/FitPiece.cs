using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Beats;
using Harkbook.Listening.Estimators.Beats.Rows;
using Harkbook.Listening.Evidence;
using Harkbook.Listening.Interchange;
using Harkbook.Listening.Reading.Lattices;

namespace Harkbook.Training.BeatChecks;

/// <summary>A piece to fit on: everything that speaks for its rows of beats, and which rows are true.</summary>
internal sealed class FitPiece
{
    private const double Near = 0.07 * 50;
    private const double Never = -1e6;

    private readonly PulseEvidence curves;
    private readonly RowEvidence evidence;
    private readonly int[] beatOf;
    private readonly bool[][] allowed;

    private FitPiece(string name, PulseEvidence curves, RowEvidence evidence, ImmutableArray<AnnotatedBeat> truth)
    {
        (Name, this.curves, this.evidence, Truth) = (name, curves, evidence, truth);
        beatOf = [.. Enumerable.Range(0, Graph.Moments).Select(m => BeatAt(Graph.Frame(m)))];
        allowed = [.. truth.Select((_, k) => Allowed(truth, k))];
    }

    public string Name { get; }

    public ImmutableArray<AnnotatedBeat> Truth { get; }

    public RowGraph Graph => evidence.Graph;

    public RowEvidence Evidence => evidence;

    /// <param name="known">Whether the beat network was trained on the piece's composer, and is surer there than elsewhere.</param>
    public static FitPiece? Of(HeardPiece piece, BeatModel model, bool known = false)
    {
        if (known && piece.Truth.Length >= 8)
            Doubt(piece);
        var flux = FluxPulse.Of(piece.Sound.Bands, default);
        if (piece.Truth.Length < 8 || piece.Sound.Span is not { } span)
            return null;
        var moments = BeatMoments.Of(piece.Sound.Curves.Beat, flux.Onsets(), span with { Last = Math.Min(span.Last, flux.LastOnset()) }, []);
        if (moments.Length < 20)
            return null;
        var graph = new RowGraph(moments, 14, 75);
        var evidence = RowEvidence.Of(piece.Sound.Curves, piece.Sound.Bands, flux.Onsets(), piece.Notes, graph, model, default);
        return new(piece.Name, piece.Sound.Curves, evidence, piece.Truth);
    }

    /// <summary>The best row by a model.</summary>
    public List<(int Step, int Place)> Best(BeatModel model) =>
        new RowLattice<MaxOf>(Graph, BarPlaces.Bars, model.Costs, evidence.Scores(curves, model, RowEvidence.Weigh(evidence.Clues, Graph.Steps, model))).Best();

    /// <summary>Adds how the log-likelihood of the true rows among all grows with each weight; returns it, by beat, or null where no true row can be taken.</summary>
    public double? Grow(BeatModel model, PlaceNetwork network, double[] growth, double[] places)
    {
        var scores = evidence.Scores(curves, model, RowEvidence.Weigh(evidence.Clues, Graph.Steps, model));
        var right = (double[])scores.Clone();
        for (var s = 0; s < Graph.Steps; s++)
            Mask(s, right.AsSpan(s * BarModel.Places, BarModel.Places));
        var known = Enumerable.Range(0, Graph.Moments).Where(m => beatOf[m] >= 0).ToArray();
        if (known.Length == 0)
            return null;
        var (start, end) = (beatOf[known[0]] + 1, beatOf[known[^1]] - 1);
        var among = new RowLattice<LogSumOf>(Graph, BarPlaces.Bars, model.Costs, right,
            known.Last(m => beatOf[m] <= start), known.First(m => beatOf[m] >= end));
        if (among.Total < Never / 2)
            return null;
        var all = new RowLattice<LogSumOf>(Graph, BarPlaces.Bars, model.Costs, scores);
        var beats = Math.Max(1, end - start);
        Add(among, growth, 1.0 / beats);
        Add(all, growth, -1.0 / beats);
        AddPlaces(among, all, model.Clues / beats, network, places);
        return (among.Total - all.Total) / beats;
    }

    /// <summary>Takes what the network says of bars from other beats in one piece of ten, and leaves it out in one.</summary>
    private static void Doubt(HeardPiece piece)
    {
        var (curves, random) = (piece.Sound.Curves, new Random(piece.Name.Sum(c => c)));
        var lot = random.NextDouble();
        if (lot > 0.2)
            return;
        var beat = (piece.Truth[^1].Time - piece.Truth[0].Time) / (piece.Truth.Length - 1) * PulseEvidence.FrameRate;
        var (by, whole) = ((int)Math.Round(beat * random.Next(1, 4)), (float[])curves.Downbeat.Clone());
        for (var f = 0; f < curves.Frames; f++)
            curves.Downbeat[f] = lot < 0.1 ? whole[(f + by) % whole.Length] : 0.3f * curves.Beat[f];
    }

    private void Mask(int step, Span<double> scores)
    {
        var end = beatOf[Graph.End(step)];
        var start = Graph.Start(step) < 0 ? end - 1 : beatOf[Graph.Start(step)];
        for (var p = 0; p < scores.Length; p++)
        {
            if (end < 0 || start != end - 1 || (Graph.Start(step) >= 0 && start < 0) || !allowed[end][p])
                scores[p] = Never;
        }
    }

    private void Add(RowLattice<LogSumOf> lattice, double[] growth, double by)
    {
        var scores = new double[BarModel.Places];
        var kinds = new double[3];
        for (var m = 0; m < Graph.Moments; m++)
        {
            var (first, other) = RowEvidence.DownbeatOdds(curves, Graph.Frame(m));
            RowEvidence.MeterOdds(curves, Graph.Frame(m), kinds);
            var (from, to) = Graph.EndingAt(m);
            for (var s = from; s < to; s++)
            {
                var sum = 0.0;
                for (var p = 0; p < scores.Length; p++)
                    sum += scores[p] = Math.Exp(lattice.Through(s, p) - lattice.Total);
                if (sum < 1e-7)
                    continue;
                for (var f = 0; f < StepFeatures.Count; f++)
                    growth[f] += by * sum * evidence.Features[s * StepFeatures.Count + f];
                for (var p = 0; p < scores.Length; p++)
                {
                    growth[Weights.Downbeat] += by * scores[p] * (BarModel.IsDownbeat(p) ? first : other);
                    growth[Weights.FeltMeter] += by * scores[p] * kinds[BarModel.KindOf[p]];
                    growth[Weights.Clues] += by * scores[p] * evidence.Places[s * BarModel.Places + p];
                    growth[Weights.BarsOfTwo] += by * (BarModel.KindOf[p] == 0 ? scores[p] : 0);
                    growth[Weights.BarsOfThree] += by * (BarModel.KindOf[p] == 1 ? scores[p] : 0);
                }
                AddChanges(lattice, s, growth, by);
            }
        }
    }

    private void AddPlaces(RowLattice<LogSumOf> among, RowLattice<LogSumOf> all, double by, PlaceNetwork network, double[] growth)
    {
        Span<double> outputs = stackalloc double[BarModel.Places];
        for (var s = 0; s < Graph.Steps; s++)
        {
            var most = 0.0;
            for (var p = 0; p < outputs.Length; p++)
            {
                outputs[p] = by * (Math.Exp(among.Through(s, p) - among.Total) - Math.Exp(all.Through(s, p) - all.Total));
                most = Math.Max(most, Math.Abs(outputs[p]) / by);
            }
            if (most > 1e-3)
                network.Grow(evidence.Clues.AsSpan(s * StepClues.Count, StepClues.Count), outputs, growth);
        }
    }

    private void AddChanges(RowLattice<LogSumOf> lattice, int step, double[] growth, double by)
    {
        var (from, to) = Graph.Before(step);
        for (var b = from; b <= to; b++)
        {
            var before = b < to ? b : Graph.Start(step) is >= 0 and var start ? Graph.FirstAt(start) : -1;
            if (before < 0)
                continue;
            var chance = Math.Exp(lattice.Following(step, before) - lattice.Total);
            if (chance < 1e-7)
                continue;
            if (b < to)
            {
                growth[Weights.Frame] -= by * chance * Math.Abs(Graph.Interval(step) - Graph.Interval(before));
                growth[Weights.Tempo] -= by * chance * RowCosts.Bend(Graph.Interval(before), Graph.Interval(step));
            }
            growth[Weights.Bar] -= by * Math.Exp(lattice.FollowingIrregularly(step, before) - lattice.Total);
        }
    }

    private int BeatAt(int frame)
    {
        var best = -1;
        for (var k = 0; k < Truth.Length; k++)
        {
            var off = Math.Abs(Truth[k].Time * PulseEvidence.FrameRate - frame);
            if (off <= Near && (best < 0 || off < Math.Abs(Truth[best].Time * PulseEvidence.FrameRate - frame)))
                best = k;
        }
        return best;
    }

    /// <summary>The places of a true beat: all where its bar isn't of two, three or four.</summary>
    private static bool[] Allowed(ImmutableArray<AnnotatedBeat> truth, int k)
    {
        var all = Enumerable.Repeat(true, BarModel.Places).ToArray();
        if (truth[k].PositionInBar is not { } position)
            return all;
        var end = k + 1;
        while (end < truth.Length && truth[end].PositionInBar > 1)
            end++;
        var last = truth[end - 1].PositionInBar ?? 0;
        var length = end < truth.Length ? last : Math.Max(last, truth.Max(b => b.PositionInBar ?? 0));
        var kind = Array.IndexOf(BarModel.Lengths, length);
        return kind < 0 || position > length ? all : [.. all.Select((_, p) => p == BarModel.Downbeats[kind] + position - 1)];
    }
}
