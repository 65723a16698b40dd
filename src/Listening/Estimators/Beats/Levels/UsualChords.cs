using System.Text.Json.Serialization;

namespace Harkbook.Listening.Estimators.Beats.Levels;

/// <summary>How many chords a beat usually has: fewer, the faster it goes.</summary>
/// <param name="At110">At 110 beats a minute, in octaves.</param>
/// <param name="AnOctave">What an octave of tempo adds.</param>
/// <param name="Spread">The standard deviation of pieces.</param>
internal sealed record UsualChords(
    [property: JsonPropertyName("at 110")] double At110, [property: JsonPropertyName("an octave")] double AnOctave, double Spread)
{
    /// <summary>How far a level's chords lie from the usual at its tempo, squared, in spreads.</summary>
    public double Unusual(LevelTraits level) => Math.Pow((level.Chords - At110 - AnOctave * Math.Log2(level.Tempo / 110)) / Spread, 2);
}
