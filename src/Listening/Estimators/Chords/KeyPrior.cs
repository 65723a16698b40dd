using System.Collections.Immutable;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Chords;

/// <summary>How likely each chord is in a key, before anything of it is heard: chords whose notes all lie in the scale most.</summary>
/// <param name="weight">How far that counts, 0 to 2.</param>
internal sealed class KeyPrior(double weight)
{
    private const double PerForeignNote = -0.8;
    private const double TonicFamily = 0.5;

    private readonly Dictionary<Key, double[]> cache = [];

    /// <summary>The chance of each state where no key is known.</summary>
    public double[] Without { get; } = Normalised(ChordVocabulary.States.Select(s => weight * s.Usual));

    public double[] In(Key key) =>
        cache.TryGetValue(key, out var chances) ? chances : cache[key] = Normalised(ChordVocabulary.States.Select(s => weight * (s.Usual + Fit(s, key))));

    public static Key? KeyAt(ImmutableArray<HeardKey> keys, Seconds time) =>
        keys.LastOrDefault(k => k.Start <= time)?.Key.Best ?? keys.FirstOrDefault()?.Key.Best;

    private static double Fit(ChordState state, Key key)
    {
        if (state.Quality is null)
            return 0;
        var scale = key.Mode.Intervals.Select(i => (key.Tonic.PitchClass + i.Semitones) % 12).ToHashSet();
        if (key.Mode.IsMinor)
            scale.Add((key.Tonic.PitchClass + 11) % 12);
        var foreign = Enumerable.Range(0, 12).Count(pc => state.Tones[pc] && !scale.Contains(pc));
        var step = (state.Root - key.Tonic.PitchClass + 12) % 12;
        return PerForeignNote * foreign + (step is 0 or 5 or 7 ? TonicFamily : 0);
    }

    private static double[] Normalised(IEnumerable<double> logs)
    {
        var values = logs.Select(Math.Exp).ToArray();
        var total = values.Sum();
        return [.. values.Select(v => v / total)];
    }
}
