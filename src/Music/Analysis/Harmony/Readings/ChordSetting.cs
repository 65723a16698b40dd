using Harkbook.Music.Analysis.Harmony.Numerals;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Harmony.Readings;

/// <summary>A chord with all that its reading looks at. Roots are semitones above the home note.</summary>
internal sealed record ChordSetting(Chord Chord, Key Key, Chord? Before, Chord? After, bool IsBlues)
{
    public int Root => FunctionalDegree.Above(Chord.Root, Key);

    public int? RootAfter => After is null ? null : FunctionalDegree.Above(After.Root, Key);

    public Tones Notes => Tones.Of(Chord, Key.Tonic);

    public Tones Triad => Tones.OfTriad(Chord, Key.Tonic);

    public Tones Scale => Tones.Of(Key.Mode);

    /// <summary>Minor's scale with the seventh degree raised.</summary>
    public Tones ScaleWithLeadingNote => Key.Mode.IsMinor ? Scale.Without(10).With(11) : Scale;

    public bool HasMajorThird => ChordTraits.HasMajorThird(Chord.Quality);

    public bool HasMinorThird => ChordTraits.HasMinorThird(Chord.Quality);

    /// <summary>A major third with a minor seventh.</summary>
    public bool IsDominantSeventh => ChordTraits.IsDominantSeventh(Chord.Quality);

    /// <summary>The next chord is the five chord, or home over the fifth degree on its way there.</summary>
    public bool GoesToFive => After is not null
        && ((RootAfter == 7 && ChordTraits.HasMajorThird(After.Quality)) || (RootAfter == 0 && FunctionalDegree.Above(After.Bass, Key) == 7));

    public bool GoesTo(int root) => RootAfter == root || (root == 7 && GoesToFive);

    /// <summary>The chord of the key on a degree so many semitones above home, where it is a major or minor triad.</summary>
    public RomanNumeral? TargetAt(int semitones)
    {
        var degree = Enumerable.Range(1, Key.Mode.Intervals.Length).FirstOrDefault(d => Key.Mode.Intervals[d - 1].Semitones == semitones);
        if (degree == 0)
            return null;
        var triad = Key.Triad(degree);
        return triad.Quality == ChordQuality.Major || triad.Quality == ChordQuality.Minor ? RomanNumeral.Of(triad, Key) : null;
    }

    /// <summary>The next chord as a target outside the key, where it stands on that root.</summary>
    public RomanNumeral? NextAsTarget(int semitones) =>
        After is null || RootAfter != semitones ? null
        : RomanNumeral.Of(Chord.Of(After.Root, ChordTraits.HasMinorThird(After.Quality) ? ChordQuality.Minor : ChordQuality.Major), Key);
}
