using System.Diagnostics.CodeAnalysis;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Analysis.Harmony.Numerals;

/// <summary>
/// A chord by its place in a key: "IV", "bVII", "V7/ii", "viiø7", "I6/4". Case shows the third, o and ø a diminished fifth, + an augmented one.
/// A sign before the numeral moves the root by a semitone against the major scale on the home note (see <see cref="NumeralStyle"/>).
/// </summary>
/// <remarks>
/// Inversions of triads, of dominant, minor and half- or fully diminished sevenths are written as figured bass: 6 and 6/4; 6/5, 4/3 and 4/2.
/// Any other bass is an arabic degree of the major scale behind a slash: "Imaj7/3", "IV/1". A roman numeral behind a slash is the degree that
/// stands for home while an applied chord sounds. A sixth in the chord is "add6", since "6" is a first inversion. A chord without a third is
/// written in capitals. After "Integrated Music Theory 2018–19" and "Open Music Theory"; the plain-text form is ours.
/// </remarks>
public sealed record RomanNumeral
{
    private RomanNumeral(Interval root, ChordQuality quality, Interval bass)
    {
        Root = root;
        Quality = quality;
        Bass = bass;
    }

    /// <summary>The root above the home note, less than an octave.</summary>
    public Interval Root { get; }

    public ChordQuality Quality { get; }

    /// <summary>The bass above the home note, less than an octave; equal to the root in root position.</summary>
    public Interval Bass { get; }

    /// <summary>The chord that this one is applied to, which is home for its moment; null for a chord of the key.</summary>
    public RomanNumeral? Target { get; private init; }

    /// <summary>Which augmented sixth chord it is, if any.</summary>
    public AugmentedSixth? Sixth { get; private init; }

    /// <summary>Minor or diminished, as its chord symbol would say; it is written small.</summary>
    public bool IsMinor => ChordSymbol.Suffix(Quality) is ['m', not 'a', ..] or ['m'] or ['d', 'i', ..];

    /// <summary>The third is minor and the fifth diminished.</summary>
    public bool IsDiminished => ChordTraits.IsDiminished(Quality);

    public bool IsInverted => Bass != Root;

    /// <summary>From a root and a bass above the home note; both are taken within the octave.</summary>
    public static RomanNumeral Of(Interval root, ChordQuality quality, Interval? bass = null) =>
        quality.Intervals.IsEmpty
            ? throw new ArgumentException("No chord has no numeral; ask Chord.IsNone first.", nameof(quality))
            : new(WithinOctave(root), quality, WithinOctave(bass ?? root));

    /// <summary>
    /// The chord's plain numeral in a key: what it is, not what it does. Root and bass are named by function, whatever their spelling:
    /// a G# chord in C is bVI, a G# diminished chord #v.
    /// </summary>
    public static RomanNumeral Of(Chord chord, Key key)
    {
        var root = FunctionalDegree.Of(chord, key);
        return Of(root, chord.Quality, FunctionalDegree.OfBass(chord, root, key));
    }

    /// <summary>The chord as applied to a degree of the key: D7 in C, applied to V, is V7/V.</summary>
    public static RomanNumeral Applied(Chord chord, Key key, RomanNumeral target)
    {
        var home = key.Tonic + target.Root;
        return Of(chord, new Key(home, target.IsMinor ? Mode.Minor : Mode.Major)).AppliedTo(target);
    }

    /// <summary>The same numeral with another chord as its home.</summary>
    public RomanNumeral AppliedTo(RomanNumeral target) => this with { Target = Of(target.Root, target.Quality) };

    /// <summary>An augmented sixth chord, in any key with its flat sixth degree in the bass.</summary>
    public static RomanNumeral Of(AugmentedSixth sixth) =>
        new(Interval.FromDegree(6, -1), FunctionalDegree.QualityOf(sixth), Interval.FromDegree(6, -1)) { Sixth = sixth };

    /// <summary>The chord that the numeral names in a key.</summary>
    public Chord In(Key key)
    {
        var home = Target is null ? key.Tonic : key.Tonic + Target.Root;
        return Chord.Of(home + Root, Quality, home + Bass);
    }

    /// <summary>How far the root lies above the key's home note, in semitones, 0–11, an applied chord's too.</summary>
    public int SemitonesAboveHome => (Root.Semitones + (Target?.Root.Semitones ?? 0)) % 12;

    /// <summary>Reads what <see cref="ToString()"/> writes, and "°", "M7", "64", "V65", "N6", "Fr43" beside it.</summary>
    public static bool TryParse([NotNullWhen(true)] string? text, [NotNullWhen(true)] out RomanNumeral? numeral, NumeralStyle? style = null)
    {
        numeral = new RomanNumeralReader(text ?? "", style ?? NumeralStyle.AgainstMajor).Read();
        return numeral is not null;
    }

    public static RomanNumeral Parse(string text, NumeralStyle? style = null) =>
        TryParse(text, out var numeral, style)
            ? numeral
            : throw new FormatException($"'{text}' is not a Roman numeral; write a degree I to VII, small for minor, as in IV, bVII, V7/ii, viiø7 or I6/4.");

    public override string ToString() => ToString(NumeralStyle.AgainstMajor);

    public string ToString(NumeralStyle style) => RomanNumeralWriter.Write(this, style);

    private static Interval WithinOctave(Interval interval) => Interval.Between(default, default(PitchName) + interval);
}
