using System.Collections.Immutable;
using System.Globalization;

namespace Harkbook.Music.Instruments.Strings;

/// <summary>
/// How usual a guitar tuning or a capo's fret is, as a share of songs, read from data/tuning-habits.tsv: what to expect before a note is heard.
/// </summary>
public static class TuningHabits
{
    private static readonly ImmutableDictionary<(string What, string Which), double> Shares = PublishedTable.Rows("tuning-habits.tsv")
        .ToImmutableDictionary(cells => (cells[0], cells[1]), cells => double.Parse(cells[2], CultureInfo.InvariantCulture) / 1000);

    private static readonly double Rarest = Shares.Where(s => s.Key.What == "tuning").Min(s => s.Value);

    /// <summary>0 to 1; a guitar tuning that the table doesn't name is as rare as the rarest that it does.</summary>
    public static double ShareOf(NamedTuning tuning) => Shares.GetValueOrDefault(("tuning", tuning.Name), Rarest);

    /// <summary>0 to 1; 0 for a fret where hardly anybody puts a capo.</summary>
    public static double ShareOfCapo(int fret) => Shares.GetValueOrDefault(("capo", fret.ToString(CultureInfo.InvariantCulture)));
}
