using System.Numerics.Tensors;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>Weighs every strand: the guitar's, or a second instrument's and of which kind. The weights are in strand-weights.txt.</summary>
internal sealed class StrandWeigher(SmallNetwork network)
{
    /// <summary>In the order of the network's outputs.</summary>
    public static readonly SecondInstrumentKind[] Kinds =
        [SecondInstrumentKind.Harmonica, SecondInstrumentKind.Voice, SecondInstrumentKind.Whistle, SecondInstrumentKind.Bowed];

    public static StrandWeigher Shipped { get; } = new(SmallNetwork.Shipped("Estimators.SecondInstrument.strand-weights.txt", StrandFeatures.Count));

    public WeighedStrand[] Weigh(List<Strand> strands, CancellationToken ct)
    {
        var features = new StrandFeatures(strands);
        var weighed = new WeighedStrand[strands.Count];
        Parallel.For(0, strands.Count, new ParallelOptions { CancellationToken = ct }, i =>
        {
            var said = network.Weigh(features.Of(i));
            weighed[i] = new(strands[i], 1 / (1 + Math.Exp(-said[0])), LogSoftmax(said.AsSpan(1)), features.Loudness(i));
        });
        return weighed;
    }

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
