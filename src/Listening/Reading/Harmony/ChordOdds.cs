using Harkbook.Music.Theory;

namespace Harkbook.Listening.Reading.Harmony;

/// <summary>How likely a chord is against the likeliest other.</summary>
/// <param name="LogOdds">Natural; above 0 where the chord is likelier.</param>
/// <param name="Rival">The likeliest other.</param>
public readonly record struct ChordOdds(double LogOdds, Chord Rival);
