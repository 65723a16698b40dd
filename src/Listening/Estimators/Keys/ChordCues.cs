using System.Collections.Immutable;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Keys;

/// <summary>
/// What the chords of a stretch say of a key, each from 0 to 1: how long the home chord sounds, whether the stretch opens and closes
/// on it, how many phrases (four bars) open on it, how many changes lead to it from its fifth or from the fourth and the
/// lowered seventh, and how much of the time chords keep to its scale.
/// </summary>
internal sealed class ChordCues
{
    public const int Count = 7;

    private const int PhraseBars = 4;

    private readonly ImmutableArray<HeardChord> chords;
    private readonly List<Chord> phraseStarts;
    private readonly double seconds;

    /// <param name="chords">Those of the stretch, in time.</param>
    /// <param name="downbeats">Those of the stretch.</param>
    public ChordCues(IEnumerable<HeardChord> chords, IReadOnlyList<Seconds> downbeats)
    {
        this.chords = [.. chords.Where(c => !c.Chord.Best.IsNone)];
        seconds = Math.Max(1e-9, this.chords.Sum(c => (c.End - c.Start).Value));
        phraseStarts = [.. downbeats.Where((_, i) => i % PhraseBars == 0)
            .Select(d => this.chords.FirstOrDefault(c => c.Start <= d + Seconds.FromMilliseconds(100) && c.End > d + Seconds.FromMilliseconds(100))?.Chord.Best)
            .OfType<Chord>()];
    }

    public double[] Of(KeyCandidate key)
    {
        if (chords.IsEmpty)
            return new double[Count];
        var changes = chords.Zip(chords.Skip(1), (from, to) => (From: from.Chord.Best, To: to.Chord.Best)).ToList();
        return
        [
            chords.Sum(c => Home(c.Chord.Best, key) * (c.End - c.Start).Value) / seconds,
            Home(chords[0].Chord.Best, key),
            Home(chords[^1].Chord.Best, key),
            phraseStarts.Count == 0 ? 0 : phraseStarts.Average(c => Home(c, key)),
            Share(changes, c => Step(c.From, key) == 7 && IsMajor(c.From) ? Home(c.To, key) : 0),
            Share(changes, c => Step(c.From, key) is 5 or 10 ? Home(c.To, key) : 0),
            chords.Sum(c => (InScale(c.Chord.Best, key) ? 1 : 0) * (c.End - c.Start).Value) / seconds,
        ];
    }

    private static double Share(List<(Chord From, Chord To)> changes, Func<(Chord From, Chord To), double> value) =>
        changes.Count == 0 ? 0 : Math.Min(1, 4 * changes.Sum(value) / changes.Count);

    /// <summary>1 for the home chord, half for one on the keynote without a third.</summary>
    private static double Home(Chord chord, KeyCandidate key)
    {
        if (chord.Root.PitchClass != key.Tonic)
            return 0;
        var (minor, major) = (chord.Quality.PitchClasses.Contains(3), chord.Quality.PitchClasses.Contains(4));
        return minor == major ? 0.5 : minor == key.IsMinor ? 1 : 0;
    }

    private static bool IsMajor(Chord chord) => chord.Quality.PitchClasses.Contains(4);

    private static int Step(Chord chord, KeyCandidate key) => (chord.Root.PitchClass - key.Tonic + 12) % 12;

    /// <summary>The scale of the key with the steps that vary in it: both sevenths in major, both sixths and sevenths in minor.</summary>
    private static bool InScale(Chord chord, KeyCandidate key) => chord.PitchClasses.All(pc =>
        key.IsMinor ? (pc - key.Tonic + 12) % 12 is not (1 or 4 or 6) : (pc - key.Tonic + 12) % 12 is not (1 or 3 or 6 or 8));
}
