using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Notes;

/// <summary>
/// What single notes of a plucked string look like in the long spectrum: for every pitch a few envelopes of partials,
/// from bright to dull. Each template sums to 1.
/// </summary>
internal sealed class HarmonicTemplates
{
    public const int LowestMidi = 36;
    public const int Pitches = 61;
    private const int MostPartials = 24;

    /// <summary>The stiffness of a middling steel string (partial n stands at n·f·√(1 + B·n²)).</summary>
    private const double Inharmonicity = 6e-5;

    /// <summary>Amplitude of partial n falls as n to these powers.</summary>
    private static readonly double[] Slopes = [0.4, 1.1, 2.2];

    public static int PerPitch => Slopes.Length;

    private HarmonicTemplates(float[][] atoms) => Atoms = atoms;

    /// <summary>Templates × bins; the templates of one pitch stand together.</summary>
    public float[][] Atoms { get; }

    /// <param name="power">The magnitudes are raised to this power, as those of the spectrum to explain are.</param>
    public static HarmonicTemplates Of(WindowKernels kernels, Hertz a4, double power)
    {
        return new([.. from p in Enumerable.Range(0, Pitches) from slope in Slopes select Atom(kernels, a4, LowestMidi + p, slope, power)]);
    }

    private static float[] Atom(WindowKernels kernels, Hertz a4, int midi, double slope, double power)
    {
        var fundamental = a4.Value * Math.Pow(2, (midi - 69) / 12.0);
        var bins = new float[LogSpectrum.Bins];
        for (var b = 0; b < bins.Length; b++)
        {
            var sum = 0.0;
            for (var n = 1; n <= MostPartials; n++)
            {
                var response = kernels.Response(b, n * fundamental * Math.Sqrt(1 + Inharmonicity * n * n)) * Math.Pow(n, -slope);
                sum += response * response;
            }
            bins[b] = (float)Math.Pow(sum, power / 2);
        }
        var total = bins.Sum();
        return [.. bins.Select(x => x / total)];
    }
}
