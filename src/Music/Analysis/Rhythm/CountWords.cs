using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Rhythm;

/// <summary>Places and lengths in a bar as they are said in a sentence.</summary>
internal static class CountWords
{
    /// <summary>"two", "the and of two", "the a of two", "the li of one"; where divisions are counted, "three".</summary>
    public static string Of(BarPlace place, Counting counting)
    {
        if (place.ByDivisions(counting))
            return place.IntoDivision == Beats.Zero ? NumberWords.Of(place.Division) : $"a place after {NumberWords.Of(place.Division)}";
        var beat = NumberWords.Of(place.Beat);
        var syllable = place.Syllable == "&" ? "and" : place.Syllable;
        return place.IsOnBeat ? beat : syllable.Length > 0 ? $"the {syllable} of {beat}" : $"a place inside beat {beat}";
    }

    /// <summary>"an eighth", "a sixteenth"; other lengths as parts of a beat.</summary>
    public static string Of(Meter meter, Beats length) => Math.Round(length.Value * meter.QuartersPerBeat * 1e6) switch
    {
        1_000_000 => "a quarter",
        500_000 => "an eighth",
        250_000 => "a sixteenth",
        _ => length == Beats.Fraction(1, 2) ? "half a beat" : length == Beats.Fraction(1, 3) ? "a third of a beat" : $"{length} of a beat",
    };
}
