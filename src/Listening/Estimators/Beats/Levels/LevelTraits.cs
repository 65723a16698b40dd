namespace Harkbook.Listening.Estimators.Beats.Levels;

/// <summary>What is heard of one level of the beat.</summary>
/// <param name="Tempo">Beats a minute.</param>
/// <param name="Chords">How many chords a beat has, in octaves: −2 for a chord every four beats.</param>
/// <param name="LowQuarters">How much low sound starts on the second and the last quarter of the beat against how much starts on it; logarithm.</param>
internal readonly record struct LevelTraits(double Tempo, double Chords, double LowQuarters);
