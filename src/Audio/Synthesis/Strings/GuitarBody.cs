using Harkbook.Units;

namespace Harkbook.Audio.Synthesis.Strings;

/// <summary>
/// A guitar's body as a bank of modes beside the direct sound. The lowest are the air mode and the first top modes
/// (Fletcher &amp; Rossing, "The Physics of Musical Instruments", chapter on guitars: about 100, 200 and 400 Hz); those above
/// stand for the dense rest. Values are typical, not one instrument's.
/// </summary>
internal sealed class GuitarBody
{
    private static readonly (double Hertz, double Q, double Gain)[] Modes =
    [
        (102, 14, 0.9), (196, 18, 1.1), (284, 20, 0.5), (392, 22, 0.7), (507, 24, 0.35), (621, 26, 0.45), (758, 26, 0.3),
        (933, 28, 0.35), (1180, 28, 0.3), (1490, 30, 0.3), (1920, 30, 0.3), (2480, 32, 0.3), (3260, 34, 0.25), (4350, 36, 0.2),
    ];

    private readonly RunningFilter[] modes;
    private RunningFilter radiation;

    public GuitarBody(SampleRate rate)
    {
        modes = [.. Modes.Select(m => RunningFilter.BandPass(m.Hertz, m.Q, rate))];
        radiation = RunningFilter.HighPass(75, 0.7, rate);
    }

    public double Next(double force)
    {
        var direct = radiation.Next(force);
        var sum = 0.7 * direct;
        for (var i = 0; i < modes.Length; i++)
            sum += Modes[i].Gain * modes[i].Next(direct);
        return sum;
    }
}
