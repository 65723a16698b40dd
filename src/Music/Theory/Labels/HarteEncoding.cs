namespace Harkbook.Music.Theory.Labels;

/// <summary>
/// A chord label as numbers for scoring, as the evaluation library mir_eval has them (Raffel et al., ISMIR 2014): root,
/// the semitones above the root that sound, bass. The bass always sounds. "N" is root −1, nothing sounding, bass −1;
/// "X" the same with every semitone unknown.
/// </summary>
public readonly record struct HarteEncoding
{
    private readonly int mask;

    private HarteEncoding(int root, int mask, int bass, HarteSound sound)
    {
        Root = root;
        this.mask = mask;
        Bass = bass;
        Sound = sound;
    }

    /// <summary>The root's pitch class 0–11; −1 for N and X.</summary>
    public int Root { get; }

    /// <summary>The bass in semitones above the root, 0–11; −1 for N and X.</summary>
    public int Bass { get; }

    public HarteSound Sound { get; }

    /// <summary>For a semitone above the root (0–11): 1 sounding, 0 not, −1 where the chord is unknown.</summary>
    public int this[int semitone] => Sound == HarteSound.Unknown ? -1 : mask >> semitone & 1;

    /// <summary>The twelve semitones from the root up as 0 and 1, the root first: "100010010000" for a major triad.</summary>
    public string Bitmap => string.Concat(Enumerable.Range(0, 12).Select(ToDigit));

    /// <summary>The pitch classes that sound, bit 0 for C.</summary>
    public int PitchClassMask => Sound == HarteSound.Chord ? (mask << Root | mask >> (12 - Root)) & 0xFFF : 0;

    /// <param name="reduceExtended">
    /// Whether degrees above the octave count, wrapped into it (9 as 2); otherwise they are dropped and 9, 11 and 13 are 7.
    /// </param>
    /// <remarks>maj11 and aug7, which mir_eval 0.7 accepts but can't encode, are encoded by the same rules as the rest.</remarks>
    public static HarteEncoding Of(HarteParts parts, bool reduceExtended = false)
    {
        if (parts.Sound != HarteSound.Chord)
            return new(-1, 0, -1, parts.Sound);
        var counts = new int[12];
        foreach (var interval in Core(parts.Shorthand, reduceExtended))
            counts[Floor.Mod(interval.Semitones, 12)]++;
        Count(counts, parts.Added, 1, reduceExtended);
        Count(counts, parts.Omitted, -1, reduceExtended);
        var bass = Floor.Mod(parts.Bass.Semitones, 12);
        var sounding = Enumerable.Range(0, 12).Where(i => counts[i] > 0 || i == bass).Sum(i => 1 << i);
        return new(parts.Root.PitchClass, sounding, bass, HarteSound.Chord);
    }

    private static IEnumerable<Interval> Core(string shorthand, bool reduceExtended)
    {
        if (shorthand.Length == 0)
            return [Interval.Unison];
        var full = HarteShorthand.Named(shorthand);
        return (reduceExtended ? full : HarteShorthand.Named(full.OctaveBase)).Quality.Intervals;
    }

    private static void Count(int[] counts, IEnumerable<Interval> degrees, int sign, bool wrap)
    {
        foreach (var degree in degrees.Distinct())
            if (wrap || degree.Semitones < 12)
                counts[Floor.Mod(degree.Semitones, 12)] += sign;
    }

    private string ToDigit(int semitone) => this[semitone] switch { 0 => "0", 1 => "1", _ => "-" };
}
