namespace Harkbook.Training.NoteWeights;

/// <summary>Brings every feature to mean 0 and spread 1, in place.</summary>
internal static class Standard
{
    public static (float[] Mean, float[] Scale) Of(Example[] examples)
    {
        var count = examples[0].Features.Length;
        var (mean, scale) = (new float[count], new float[count]);
        for (var k = 0; k < count; k++)
        {
            var average = examples.Average(e => (double)e.Features[k]);
            var spread = Math.Sqrt(examples.Average(e => Math.Pow(e.Features[k] - average, 2)));
            (mean[k], scale[k]) = ((float)average, (float)(1 / (spread + 1e-3)));
            foreach (var example in examples)
                example.Features[k] = (example.Features[k] - mean[k]) * scale[k];
        }
        return (mean, scale);
    }
}
