using System.Globalization;

namespace Harkbook.Music.Songs;

/// <summary>A tempo in words, the same wherever it stands: with one decimal where it isn't whole.</summary>
public static class TempoText
{
    public static string Of(double beatsAMinute) => string.Create(CultureInfo.InvariantCulture, $"{beatsAMinute:0.#} beats a minute");
}
