using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// Nobody taps where nothing ever sounds: a row of beats of which every other one falls into silence is not believed, and moments
/// at which nothing starts lose their credit. Single rests and off-beat chords are another thing: they don't alternate throughout.
/// </summary>
internal static class SilentBeats
{
    private const double Silent = 0.1;
    private const double Sounding = 0.6;
    private const int Fewest = 12;
    private const int Reach = 3;
    private const double Clear = 0.8;
    private const float CreditLeft = 0.1f;

    /// <param name="onsets">How much starts in each frame, as <see cref="FluxPulse.Onsets"/> tells.</param>
    public static bool Alternate(IReadOnlyList<DecodedBeat> beats, double[] onsets)
    {
        if (beats.Count < Fewest)
            return false;
        var starts = beats.Select(b => Starts(onsets, b.Frame)).ToArray();
        var shares = new[] { 0, 1 }.Select(phase => starts.Where((_, k) => k % 2 == phase).Average(s => s ? 1.0 : 0)).ToArray();
        return shares.Min() < Silent && shares.Max() > Sounding;
    }

    /// <summary>What the network felt of tempo and meter went with the row that isn't believed, so it is forgotten.</summary>
    public static PulseEvidence Discredit(PulseEvidence evidence, double[] onsets)
    {
        var settled = evidence.Copy();
        for (var f = 0; f < evidence.Frames; f++)
        {
            settled.Forget(f);
            if (!Starts(onsets, f))
                (settled.Beat[f], settled.Downbeat[f]) = (CreditLeft * evidence.Beat[f], CreditLeft * evidence.Downbeat[f]);
        }
        return settled;
    }

    private static bool Starts(double[] onsets, int frame)
    {
        for (var f = Math.Max(0, frame - Reach); f <= Math.Min(onsets.Length - 1, frame + Reach); f++)
        {
            if (onsets[f] > Clear)
                return true;
        }
        return false;
    }
}
