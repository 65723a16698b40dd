namespace Harkbook.Music.Instruments.Strings;

/// <summary>
/// Where a string touched lightly sounds a harmonic. Partial k has its nodes at whole k-ths of the string's length, and fret n of an
/// equal-tempered neck lies at 1 − 2^(−n/12) of it, so the octave's node is at fret 12 and those of the third partial at 7 and 19.
/// </summary>
public static class HarmonicNode
{
    private const int HighestPartial = 6;

    /// <summary>A node and a fret count as one place within this share of the string's length: about 5 mm on a guitar.</summary>
    private const double Slack = 0.008;

    /// <summary>The partial that sounds when the string is touched so many frets above where it is stopped; null where no node lies.</summary>
    public static int? PartialAt(int fretsAbove)
    {
        var place = 1 - Math.Pow(2, -fretsAbove / 12.0);
        for (var partial = 2; partial <= HighestPartial && fretsAbove > 0; partial++)
        {
            var node = Math.Round(place * partial);
            if (node > 0 && node < partial && Math.Abs(node / partial - place) < Slack)
                return partial;
        }
        return null;
    }

    /// <summary>How many semitones a partial sounds above the whole string.</summary>
    public static double Rise(int partial) => 12 * Math.Log2(partial);
}
