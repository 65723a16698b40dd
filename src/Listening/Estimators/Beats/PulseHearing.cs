using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// Listens with the network at several speeds, like a record played a little slower and faster, and puts the answers together:
/// what holds at every speed is more to be trusted than what holds at one.
/// </summary>
internal static class PulseHearing
{
    /// <summary>How many times as long the sound lasts.</summary>
    private static readonly double[] Stretches = [1, 1.12, 0.89];

    /// <param name="sound">One channel at <see cref="PulseBands.Rate"/>.</param>
    public static PulseEvidence Of(ISound sound, PulseNetwork network, CancellationToken cancellation)
    {
        var whole = new PulseEvidence(1 + sound.Length / PulseBands.HopSamples) { Learned = true };
        foreach (var stretch in Stretches)
            Add(whole, network.Weigh(new PulseBands(Stretched(sound, stretch)), cancellation), stretch);
        for (var f = 0; f < whole.Frames; f++)
            (whole.Beat[f], whole.Downbeat[f], whole.Change[f]) = (Chance(whole.Beat[f]), Chance(whole.Downbeat[f]), Chance(whole.Change[f]));
        return whole;
    }

    private static ISound Stretched(ISound sound, double stretch) => sound.At(SampleRate.FromHertz((int)(PulseBands.Rate.Hertz * stretch)));

    /// <summary>Log odds and shares are averaged; a tempo heard slower is moved back up.</summary>
    private static void Add(PulseEvidence whole, PulseEvidence heard, double stretch)
    {
        var weight = 1f / Stretches.Length;
        var moved = 20 * Math.Log2(stretch);
        for (var f = 0; f < whole.Frames; f++)
        {
            var place = Math.Min(heard.Frames - 1.001, f * stretch);
            whole.Beat[f] += weight * LogOdds(At(heard.Beat, place));
            whole.Downbeat[f] += weight * LogOdds(At(heard.Downbeat, place));
            whole.Change[f] += weight * LogOdds(At(heard.Change, place));
            var near = (int)Math.Round(place);
            for (var m = 0; m < PulseEvidence.Meters; m++)
                whole.Meter[f, m] += weight * heard.Meter[near, m];
            for (var p = 0; p < BarModel.Places; p++)
                whole.Place[f, p] += weight * heard.Place[near, p];
            for (var t = 0; t < PulseEvidence.Tempi; t++)
                whole.Tempo[f, t] += weight * TempoAt(heard, near, t - moved);
        }
    }

    private static float At(float[] curve, double place)
    {
        var low = Math.Max(0, (int)place);
        var part = (float)(place - low);
        return curve[low] * (1 - part) + curve[Math.Min(low + 1, curve.Length - 1)] * part;
    }

    private static float TempoAt(PulseEvidence heard, int frame, double place)
    {
        if (place < 0 || place > PulseEvidence.Tempi - 1)
            return 0;
        var low = Math.Min((int)place, PulseEvidence.Tempi - 2);
        var part = (float)(place - low);
        return heard.Tempo[frame, low] * (1 - part) + heard.Tempo[frame, low + 1] * part;
    }

    private static float LogOdds(float p)
    {
        var inside = Math.Clamp(p, 1e-3f, 1 - 1e-3f);
        return MathF.Log(inside / (1 - inside));
    }

    private static float Chance(float logOdds) => 1 / (1 + MathF.Exp(-logOdds));
}
