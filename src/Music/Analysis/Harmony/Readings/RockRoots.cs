using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Analysis.Harmony.Numerals;
using Harkbook.Music.Instruments;

namespace Harkbook.Music.Analysis.Harmony.Readings;

/// <summary>How often each degree is a chord's root in rock, by data/rock-roots.tsv (de Clercq and Temperley 2011).</summary>
public static class RockRoots
{
    private const double UsualFrom = .05;
    private const double UncommonFrom = .01;

    private static readonly ImmutableDictionary<int, double> Shares = PublishedTable.Rows("rock-roots.tsv")
        .ToImmutableDictionary(cells => int.Parse(cells[0], CultureInfo.InvariantCulture), cells => double.Parse(cells[2], CultureInfo.InvariantCulture));

    /// <summary>The share of chords with a root so many semitones (0–11) above home, 0 to 1.</summary>
    public static double ShareAt(int semitones) =>
        Shares.TryGetValue(semitones, out var share) ? share : throw new ArgumentOutOfRangeException(nameof(semitones), semitones,
            "A root lies 0 to 11 semitones above home.");

    /// <summary>How usual the root of a numeral is: from 5% of chords on usual, from 1% uncommon, else rare. The limits are ours.</summary>
    public static Usualness Of(RomanNumeral numeral)
    {
        var share = ShareAt(numeral.SemitonesAboveHome);
        var frequency = share >= UsualFrom ? Frequency.Usual : share >= UncommonFrom ? Frequency.Uncommon : Frequency.Rare;
        var percent = (100 * share).ToString(share < UncommonFrom ? "0.0" : "0", CultureInfo.InvariantCulture);
        return new(frequency, $"{NumeralSpeech.Root(numeral)} is the root of about {percent}% of chords in rock (after de Clercq and Temperley 2011)");
    }
}
