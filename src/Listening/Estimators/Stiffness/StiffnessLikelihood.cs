using System.Numerics.Tensors;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Stiffness;

/// <summary>
/// How likely a note's peaks are under each stiffness of its string, against peaks strewn by chance. Each partial shows as one of the peaks near its
/// place or not at all; a peak says the more the rarer such a peak is there otherwise: strong, and where no other note has a partial. Pitch is unknown
/// within a few cents and summed over.
/// </summary>
internal sealed class StiffnessLikelihood
{
    private const int LowestCents = -45, CentsCount = 480, Pitches = 41;

    private static readonly short[][] Stretches = [.. Enumerable.Range(0, 32).Select(n => Enumerable.Range(0, StiffnessGrid.Count)
        .Select(b => StretchOf(Math.Max(1, n), Math.Pow(10, StiffnessGrid.At(b)))).ToArray())];

    private readonly StiffnessModel.OfPartials model;
    private readonly float[] table = new float[CentsCount];

    /// <summary>By stiffness, then by pitch a cent apart.</summary>
    private readonly float[] sums = new float[Pitches * StiffnessGrid.Count];

    public StiffnessLikelihood(StiffnessModel.OfPartials model) => this.model = model;

    /// <summary>Natural logs of likelihoods over <see cref="StiffnessGrid"/>, the highest 0.</summary>
    /// <param name="others">How many other notes sound.</param>
    public void Weigh(List<PartialPeaks> partials, int others, Span<double> logs)
    {
        var temper = (float)(model.Temper / (1 + model.TemperPerOther * others));
        for (var pitch = 0; pitch < Pitches; pitch++)
        {
            var off = (pitch - Pitches / 2) / model.PitchSpread;
            for (var b = 0; b < StiffnessGrid.Count; b++)
                sums[b * Pitches + pitch] = (float)(-0.5 * off * off);
        }
        foreach (var partial in partials)
        {
            if (partial.Peaks.Count > 0)
                Add(partial, temper);
        }
        Sum(logs);
    }

    private void Add(PartialPeaks partial, float temper)
    {
        Fill(partial);
        var stretches = Stretches[partial.Number];
        for (var b = 0; b < StiffnessGrid.Count; b++)
        {
            var row = sums.AsSpan(b * Pitches, Pitches);
            TensorPrimitives.MultiplyAdd(table.AsSpan(stretches[b] - LowestCents - Pitches / 2, Pitches), temper, row, row);
        }
    }

    /// <summary>By cents from the partial's place: the log of how likely its peaks are, against none there.</summary>
    private void Fill(PartialPeaks partial)
    {
        var shown = model.Shown * Math.Exp(-model.ShownFall * (partial.Number - 1));
        table.AsSpan().Clear();
        var spread = Math.Sqrt(model.Spread * model.Spread + Math.Pow(model.LowSpread / partial.Number, 2) + Math.Pow(model.BinShare * partial.Resolution, 2));
        foreach (var peak in partial.Peaks)
            AddBell(peak.Cents - LowestCents, spread, (float)(shown / (1 - shown) / Strays(peak, partial.Resolution) / (spread * Math.Sqrt(2 * Math.PI))));
        for (var c = 0; c < table.Length; c++)
            table[c] = table[c] == 0 ? 0 : MathF.Log(1 + table[c]);
    }

    /// <summary>How many peaks as strong as one a cent has that are not the partial: noise, other notes' partials, and whatever else sounds.</summary>
    private double Strays(CandidatePeak peak, double resolution) =>
        model.Noise * Math.Exp(-model.NoiseFall * peak.Decibels) / resolution + model.OfOther * peak.Others + model.Stray;

    private void AddBell(double centre, double spread, float height)
    {
        var reach = 4.5 * spread;
        for (var c = Math.Max(0, (int)(centre - reach)); c <= Math.Min(table.Length - 1, (int)(centre + reach) + 1); c++)
        {
            var off = (c - centre) / spread;
            table[c] += height * MathF.Exp((float)(-0.5 * off * off));
        }
    }

    /// <summary>Cents by which stiffness raises a partial.</summary>
    private static short StretchOf(int n, double b) => (short)Math.Round(1200 * Math.Log2(StiffnessGrid.Multiple(n, b) / n));

    /// <summary>Over pitches.</summary>
    private void Sum(Span<double> logs)
    {
        for (var b = 0; b < logs.Length; b++)
        {
            var row = sums.AsSpan(b * Pitches, Pitches);
            var (most, sum) = (TensorPrimitives.Max<float>(row), 0f);
            foreach (var log in row)
                sum += MathF.Exp(log - most);
            logs[b] = most + MathF.Log(sum);
        }
        var best = double.NegativeInfinity;
        foreach (var log in logs)
            best = Math.Max(best, log);
        for (var b = 0; b < logs.Length; b++)
            logs[b] -= best;
    }
}
