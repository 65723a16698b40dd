using Harkbook.Audio.Synthesis;
using Harkbook.Units;

namespace Harkbook.Sounding;

/// <summary>How exactly a player plays.</summary>
/// <param name="noise">Where the player's unevenness comes from; null plays exactly.</param>
/// <param name="jitterMilliseconds">Deviation of onsets; none is early or late by more than twice as much.</param>
internal sealed class Touch(Noise? noise, double jitterMilliseconds)
{
    public static Touch Exact { get; } = new(null, 0);

    public Seconds Around(Seconds at) =>
        noise is null ? at : at + Seconds.FromMilliseconds(jitterMilliseconds * Math.Clamp(noise.NextNormal(), -2, 2));

    public double Strength(double usual) =>
        noise is null ? usual : Math.Clamp(usual * (1 + 0.12 * noise.NextNormal()), 0.05, 1);

    /// <summary>Time that a stroke takes from its first string to its last; a hard one is quicker.</summary>
    public Seconds Spread(double strength) =>
        Seconds.FromMilliseconds((26 - 14 * strength) * (noise is null ? 1 : 1 + 0.25 * noise.Next()));
}
