namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>Where a player's notes come from on a neck with given open strings: open ones most, then low frets.</summary>
internal sealed class NeckModel
{
    private const int Frets = 17;
    private const double Stray = 0.02;

    private readonly double[] chances = new double[128];

    /// <param name="open">MIDI numbers of the strings as the capo stops them.</param>
    public NeckModel(int[] open)
    {
        foreach (var pitch in open)
        {
            for (var fret = 0; fret <= Frets; fret++)
                chances[Math.Min(127, pitch + fret)] += Liking(fret);
        }
        var total = chances.Sum();
        for (var midi = 0; midi < chances.Length; midi++)
            chances[midi] = (1 - Stray) * chances[midi] / total + Stray / 60;
    }

    /// <summary>The natural log of the chance that a note is this pitch.</summary>
    public double LogChance(int midi) => Math.Log(chances[Math.Clamp(midi, 0, 127)]);

    private static double Liking(int fret) => fret switch
    {
        0 => 2.5,
        <= 4 => 1,
        <= 7 => 0.5,
        <= 12 => 0.2,
        _ => 0.05,
    };
}
