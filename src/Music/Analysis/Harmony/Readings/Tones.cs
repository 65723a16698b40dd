using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Harmony.Readings;

/// <summary>A set of notes as semitones above the home note: bit n set where n semitones above sound.</summary>
internal readonly record struct Tones(int Mask)
{
    /// <summary>The chord's own notes; a bass foreign to it is not among them.</summary>
    public static Tones Of(Chord chord, PitchName home) =>
        new(chord.Notes.Aggregate(0, (mask, note) => mask | 1 << Floor.Mod(note.PitchClass - home.PitchClass, 12)));

    public static Tones Of(Mode mode) => new(mode.Intervals.Aggregate(0, (mask, i) => mask | 1 << i.Semitones));

    /// <summary>The notes of a quality's triad: its third, fourth or second, and its fifth.</summary>
    public static Tones OfTriad(Chord chord, PitchName home) =>
        Of(Chord.Of(chord.Root, Core(chord.Quality)), home);

    public bool IsIn(Tones other) => (Mask & ~other.Mask) == 0;

    public bool Has(int semitones) => (Mask >> semitones & 1) != 0;

    public Tones With(int semitones) => new(Mask | 1 << semitones);

    public Tones Without(int semitones) => new(Mask & ~(1 << semitones));

    public Tones Except(Tones other) => new(Mask & ~other.Mask);

    public IEnumerable<int> Semitones
    {
        get
        {
            for (var i = 0; i < 12; i++)
                if (Has(i))
                    yield return i;
        }
    }

    private static ChordQuality Core(ChordQuality quality)
    {
        var core = quality.Intervals.Where(i => i.Steps is 0 or 2 or 4).ToList();
        return core.Count == 3 ? ChordQuality.Of(core) : quality;
    }
}
