using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Units;

namespace Harkbook.App.Choices;

/// <summary>
/// A set of strings as its package says it, from the thin one: "12 16 24w 32w 42w 53w" in thousandths of an inch, w for wound. A wound
/// string's unit weight in pounds an inch may follow, from its maker's table: "24w=0.00011".
/// </summary>
internal static class StringWords
{
    /// <summary>From the low side as tunings are; null for a wound string whose weight isn't given. Null when the text is none.</summary>
    public static ImmutableArray<StringWeight?>? Read(string text)
    {
        var words = text.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        var weights = ImmutableArray.CreateBuilder<StringWeight?>();
        foreach (var word in words.Reverse())
        {
            if (!TryRead(word, out var weight))
                return null;
            weights.Add(weight);
        }
        return weights.ToImmutable();
    }

    private static bool TryRead(string word, out StringWeight? weight)
    {
        weight = null;
        var (gauge, given) = word.Split('=') switch { [var g] => (g, null), [var g, var w] => (g, w), _ => ("", "") };
        var wound = gauge.EndsWith('w');
        if (!TryNumber(gauge.TrimEnd('w'), out var thousandths) || thousandths is < 5 or > 200)
            return false;
        if (given is not null)
        {
            if (!TryNumber(given, out var pounds) || pounds is <= 0 or > 0.01)
                return false;
            weight = StringWeight.FromPoundsPerInch(pounds);
        }
        else if (!wound)
        {
            weight = StringWeight.PlainSteel(Length.FromInches(thousandths / 1000));
        }
        return true;
    }

    private static bool TryNumber(string text, out double value) =>
        double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out value) && double.IsFinite(value);
}
