using Harkbook.Units;

namespace Harkbook.Audio.Synthesis.Mixing;

/// <summary>
/// How a tape machine runs: a steady speed error, with slow wow and fast flutter about it. Both directions of time are
/// exact, so that what was played can be found on the tape.
/// </summary>
public sealed class TapeTransport
{
    private readonly double ratio;
    private readonly (double Depth, double Radians, double Phase)[] wobbles;

    /// <param name="offset">Pitch of the tape against what was played: positive is fast and sharp.</param>
    /// <param name="wow">Greatest deviation of the slow wobble (0.7 Hz) as a share of the speed; 0 to 0.01.</param>
    /// <param name="flutter">The same of the fast wobble (9 Hz).</param>
    public TapeTransport(Cents offset, double wow, double flutter, int seed)
    {
        if (wow is < 0 or > 0.01 || flutter is < 0 or > 0.01)
            throw new ArgumentOutOfRangeException(nameof(wow), (wow, flutter), "Wow and flutter are shares of the speed, 0 to 0.01.");
        var noise = new Noise(seed);
        ratio = Math.Pow(2, offset.Value / 1200);
        wobbles = [(wow, 2 * Math.PI * 0.7, Math.PI * noise.Next()), (flutter, 2 * Math.PI * 9.1, Math.PI * noise.Next())];
    }

    /// <summary>Speed as a ratio: 1.01 plays a hundredth fast.</summary>
    public double Ratio => ratio;

    /// <summary>The moment of the playing that is heard at a moment of the tape.</summary>
    public Seconds Played(Seconds onTape)
    {
        var t = onTape.Value;
        return Seconds.FromSeconds(ratio * (t + wobbles.Sum(w => w.Depth / w.Radians * (Math.Cos(w.Phase) - Math.Cos(w.Radians * t + w.Phase)))));
    }

    /// <summary>The moment of the tape at which a moment of the playing is heard.</summary>
    public Seconds OnTape(Seconds played)
    {
        var t = played.Value / ratio;
        for (var i = 0; i < 20; i++)
            t -= (Played(Seconds.FromSeconds(t)).Value - played.Value) / ratio;
        return Seconds.FromSeconds(t);
    }
}
