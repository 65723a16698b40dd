using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Tests.Estimators.Beats;

/// <summary>Evidence made by formula: a bell of about three frames at every beat, nothing else.</summary>
internal static class Activations
{
    /// <param name="beats">Seconds.</param>
    /// <param name="downbeat">Whether the beat of this number starts a bar.</param>
    /// <param name="tempo">Beats a minute that are felt; 0 for no feeling.</param>
    /// <param name="meter">The place in <see cref="PulseEvidence.Meter"/> that is felt; −1 for no feeling.</param>
    public static PulseEvidence Of(IReadOnlyList<double> beats, Func<int, bool> downbeat, int meter = -1, double height = 0.8, double tempo = 0)
    {
        var evidence = new PulseEvidence((int)((beats[^1] + 1) * PulseEvidence.FrameRate));
        Array.Fill(evidence.Beat, 0.01f);
        Array.Fill(evidence.Downbeat, 0.003f);
        for (var f = 0; f < evidence.Frames; f++)
        {
            for (var m = 0; m < PulseEvidence.Meters; m++)
                evidence.Meter[f, m] = meter < 0 ? 0.2f : m == meter ? 0.8f : 0.05f;
            for (var t = 0; t < PulseEvidence.Tempi; t++)
                evidence.Tempo[f, t] = tempo > 0 ? (float)Math.Max(0.001, 0.3 - 0.1 * Math.Abs(t - PulseEvidence.PlaceOf(tempo))) : 1f / PulseEvidence.Tempi;
        }
        for (var k = 0; k < beats.Count; k++)
        {
            Bell(evidence.Beat, beats[k], height);
            if (downbeat(k))
                Bell(evidence.Downbeat, beats[k], 0.9 * height);
        }
        return evidence;
    }

    public static void Bell(float[] curve, double seconds, double height)
    {
        var centre = seconds * PulseEvidence.FrameRate;
        for (var f = Math.Max(0, (int)centre - 3); f <= Math.Min(curve.Length - 1, (int)centre + 4); f++)
            curve[f] = Math.Max(curve[f], (float)(height * Math.Exp(-0.5 * Math.Pow((f - centre) / 0.9, 2))));
    }
}
