namespace Harkbook.Audio.Synthesis;

/// <summary>One cycle of a wave made of harmonics, none of which may reach the Nyquist frequency when it is played.</summary>
internal sealed class HarmonicTable
{
    private readonly double[] cycle;

    /// <param name="harmonics">Amplitude and phase (radians) of harmonics 1, 2, 3 …</param>
    public HarmonicTable(IReadOnlyList<(double Amplitude, double Phase)> harmonics)
    {
        var size = (int)System.Numerics.BitOperations.RoundUpToPowerOf2((uint)Math.Max(1024, 32 * harmonics.Count));
        cycle = new double[size];
        for (var h = 0; h < harmonics.Count; h++)
        {
            for (var i = 0; i < size; i++)
                cycle[i] += harmonics[h].Amplitude * Math.Cos(2 * Math.PI * (h + 1) * i / size + harmonics[h].Phase);
        }
    }

    /// <summary>Harmonics that fit below 90 % of Nyquist for a fundamental that may rise by 3 %; at most 80.</summary>
    public static int Fitting(double frequency, double rate) => Math.Clamp((int)(0.45 * rate / (1.03 * frequency)), 1, 80);

    /// <summary>The wave at a phase of 0 to 1, by cubic interpolation.</summary>
    public double At(double phase)
    {
        var place = phase * cycle.Length;
        var index = (int)place;
        var t = place - index;
        var mask = cycle.Length - 1;
        var (a, b, c, d) = (cycle[(index - 1) & mask], cycle[index & mask], cycle[(index + 1) & mask], cycle[(index + 2) & mask]);
        return b + 0.5 * t * (c - a + t * (2 * a - 5 * b + 4 * c - d + t * (3 * (b - c) + d - a)));
    }
}
