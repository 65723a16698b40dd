using System.Numerics.Tensors;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>
/// Weighs every strand: the guitar's, or a second instrument's and of which kind. First each alone, then again knowing what the
/// others are likely to be. The weights are in strand-weights.txt and line-weights.txt.
/// </summary>
internal sealed class StrandWeigher(SmallNetwork alone, SmallNetwork together)
{
    /// <summary>In the order of the network's outputs.</summary>
    public static readonly SecondInstrumentKind[] Kinds =
        [SecondInstrumentKind.Harmonica, SecondInstrumentKind.Voice, SecondInstrumentKind.Whistle, SecondInstrumentKind.Bowed];

    public static StrandWeigher Shipped { get; } = new(
        SmallNetwork.Shipped("Estimators.SecondInstrument.strand-weights.txt", StrandFeatures.Count),
        SmallNetwork.Shipped("Estimators.SecondInstrument.line-weights.txt", StrandFeatures.Count + LineContext.Count));

    public WeighedStrand[] Weigh(List<Strand> strands, CancellationToken ct)
    {
        var first = First(strands, alone, ct);
        var weighed = new WeighedStrand[strands.Count];
        Parallel.For(0, strands.Count, new ParallelOptions { CancellationToken = ct }, i =>
            weighed[i] = new(strands[i], Chance(together.Weigh(first.Rows[i])[0]), first.LogKinds[i], first.Features.Loudness(i)));
        return weighed;
    }

    /// <summary>Weighs each strand alone.</summary>
    /// <returns>What the second network is asked with, each strand's own features and its context; and the first's word on the kind, which the second hasn't.</returns>
    public static (float[][] Rows, double[][] LogKinds, StrandFeatures Features) First(List<Strand> strands, SmallNetwork alone, CancellationToken ct)
    {
        var (rows, kinds, chances) = (new float[strands.Count][], new double[strands.Count][], new double[strands.Count]);
        var (features, options) = (new StrandFeatures(strands), new ParallelOptions { CancellationToken = ct });
        Parallel.For(0, strands.Count, options, i =>
        {
            rows[i] = features.Of(i);
            var said = alone.Weigh((float[])rows[i].Clone());
            (chances[i], kinds[i]) = (Chance(said[0]), LogSoftmax(said.AsSpan(1)));
        });
        var context = new LineContext(strands, features, chances);
        Parallel.For(0, strands.Count, options, i => rows[i] = [.. rows[i], .. context.Of(i)]);
        return (rows, kinds, features);
    }

    private static double Chance(float said) => 1 / (1 + Math.Exp(-said));

    private static double[] LogSoftmax(ReadOnlySpan<float> said)
    {
        var top = TensorPrimitives.Max(said);
        var result = new double[said.Length];
        var total = 0.0;
        foreach (var s in said)
            total += Math.Exp(s - top);
        for (var k = 0; k < result.Length; k++)
            result[k] = said[k] - top - Math.Log(total);
        return result;
    }
}
