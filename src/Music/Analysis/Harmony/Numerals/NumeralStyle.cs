using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Harmony.Numerals;

/// <summary>
/// Which scale a numeral without a sign counts on. Textbooks differ: the chord of C on Ab is "bVI" in C major everywhere, but in C minor
/// some write "bVI" and some "VI". Harkbook counts on the major scale of the home note in every mode, so that one numeral is one distance
/// from home; <see cref="AgainstScale"/> counts on the key's own scale.
/// </summary>
public sealed record NumeralStyle
{
    private NumeralStyle(Mode counted) => Counted = counted;

    /// <summary>The scale whose degrees bear no sign.</summary>
    public Mode Counted { get; }

    /// <summary>Signs count against the major scale: bIII, bVI and bVII in minor, as players of popular music write.</summary>
    public static NumeralStyle AgainstMajor { get; } = new(Mode.Major);

    /// <summary>
    /// Signs count against the key's own scale: III, VI and VII in minor, as in "Integrated Music Theory 2018–19". A diminished chord on the
    /// seventh degree stands on the leading note, which is native to minor, and bears no sign.
    /// </summary>
    public static NumeralStyle AgainstScale(Mode mode) => new(mode);

    /// <summary>How far the plain degree (1–7) lies from that of the major scale, in semitones.</summary>
    internal int Plain(int degree, bool isDiminished) =>
        degree == 7 && isDiminished ? 0 : Counted.Intervals[degree - 1].Degree.Alteration;
}
