using System.Numerics.Tensors;

namespace Harkbook.Listening.Estimators.Notes;

/// <summary>
/// Explains each spectrum as a non-negative sum of fixed templates under the generalised Kullback–Leibler divergence,
/// by multiplicative updates (Lee and Seung, "Algorithms for non-negative matrix factorization", NIPS 2000).
/// Templates whose weight has died away take no further part.
/// </summary>
internal sealed class SparseDecomposition(float[][] atoms, int rounds)
{
    private const float Negligible = 1e-6f;

    private readonly float[] totals = [.. atoms.Select(a => a.Sum())];

    /// <summary>The weight of every template in one spectrum.</summary>
    public float[] Explain(ReadOnlySpan<float> spectrum)
    {
        var weights = new float[atoms.Length];
        weights.AsSpan().Fill(TensorPrimitives.Sum(spectrum) / atoms.Length);
        Refine(weights, spectrum);
        return weights;
    }

    /// <summary>Weights for one spectrum, starting from given ones; a weight of 0 stays 0.</summary>
    public void Refine(Span<float> weights, ReadOnlySpan<float> spectrum)
    {
        Span<float> model = stackalloc float[spectrum.Length];
        Span<float> ratio = stackalloc float[spectrum.Length];
        var negligible = Negligible * TensorPrimitives.Sum(spectrum);
        if (negligible <= 0)
        {
            weights.Clear();
            return;
        }
        for (var round = 0; round < rounds; round++)
        {
            Compose(weights, model, negligible);
            TensorPrimitives.Divide(spectrum, model, ratio);
            for (var a = 0; a < atoms.Length; a++)
            {
                if (weights[a] > 0)
                    weights[a] *= TensorPrimitives.Dot(ratio, atoms[a]) / totals[a];
                if (weights[a] < negligible)
                    weights[a] = 0;
            }
        }
    }

    private void Compose(ReadOnlySpan<float> weights, Span<float> model, float floor)
    {
        model.Fill(floor);
        for (var a = 0; a < atoms.Length; a++)
        {
            if (weights[a] > 0)
                TensorPrimitives.MultiplyAdd(atoms[a], weights[a], model, model);
        }
    }
}
