using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Publishing.Engraving;

/// <summary>A place in a bar that is counted aloud.</summary>
public readonly record struct Count(Beats At, string Word, bool IsBeat);

/// <summary>
/// The words that players count with: "1 &amp; 2 &amp;" in simple meters, "1 e &amp; a" where sixteenths are needed, and
/// "1 la li" in compound ones (R. Hutchinson, "Music Theory for the 21st-Century Classroom", 4a and 4b).
/// </summary>
public static class Counting
{
    private static readonly string[] SimpleWords = ["", "e", "&", "a"];
    private static readonly string[] CompoundWords = ["", "la", "li"];

    /// <param name="needed">Starts in the bar; a sixteenth is counted only where one of them falls.</param>
    public static ImmutableArray<Count> Of(Meter meter, IEnumerable<Beats> needed)
    {
        var parts = meter.IsCompound ? 3 : 4;
        var words = meter.IsCompound ? CompoundWords : SimpleWords;
        var starts = needed.ToHashSet();
        var counts = ImmutableArray.CreateBuilder<Count>();
        for (var i = 0; i < meter.BeatsPerBar * parts; i++)
        {
            var at = Beats.Fraction(i, parts);
            var word = i % parts == 0 ? (i / parts + 1).ToString(CultureInfo.InvariantCulture) : words[i % parts];
            if (word is not ("e" or "a") || starts.Contains(at))
                counts.Add(new(at, word, i % parts == 0));
        }
        return counts.ToImmutable();
    }
}
