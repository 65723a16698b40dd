namespace Harkbook.Listening;

/// <summary>The natural log of how many times as likely something is as not: 0 where it is even.</summary>
internal static class LogOdds
{
    /// <param name="chance">From 0 to 1; taken to lie at least <paramref name="least"/> from both.</param>
    public static double Of(double chance, double least = 1e-4)
    {
        var inside = Math.Clamp(chance, least, 1 - least);
        return Math.Log(inside / (1 - inside));
    }

    public static double Chance(double logOdds) => 1 / (1 + Math.Exp(-logOdds));
}
