using Harkbook.Music.Theory.Labels;

namespace Harkbook.Listening.Evaluation;

/// <summary>
/// Whether one chord label stands for another, by the published comparisons (Pauwels &amp; Peeters, ICASSP 2013; mir_eval,
/// ISMIR 2014): true, false, or null where the comparison doesn't judge this reference label.
/// </summary>
public static class ChordComparison
{
    private const string Major = "100010010000";
    private const string Minor = "100100010000";
    private static readonly string[] SeventhsVocabulary =
        [Major, Minor, "100010010001", "100010010010", "100100010010", "000000000000"];

    /// <summary>The same root.</summary>
    public static bool? Root(string reference, string estimated) =>
        Judge(reference, estimated, _ => true, (r, e) => r.Root == e.Root);

    /// <summary>The same root and third.</summary>
    public static bool? Thirds(string reference, string estimated) =>
        Judge(reference, estimated, _ => true, (r, e) => r.Root == e.Root && r[3] == e[3]);

    /// <summary>The same root and the same notes up to the fifth.</summary>
    public static bool? Triads(string reference, string estimated) =>
        Judge(reference, estimated, _ => true, SameTriad);

    /// <summary>The same root and notes.</summary>
    public static bool? Tetrads(string reference, string estimated) =>
        Judge(reference, estimated, _ => true, SameNotes);

    /// <summary>Major and minor chords (extended or not) and no chord; others aren't judged.</summary>
    public static bool? MajorMinor(string reference, string estimated) =>
        Judge(reference, estimated, IsMajorMinor, SameTriad);

    /// <summary>The same with the bass.</summary>
    public static bool? MajorMinorWithBass(string reference, string estimated) =>
        Judge(reference, estimated, IsMajorMinor, (r, e) => SameTriad(r, e) && r.Bass == e.Bass);

    /// <summary>Major, minor, dominant seventh, major seventh, minor seventh and no chord; others aren't judged.</summary>
    public static bool? Sevenths(string reference, string estimated) =>
        Judge(reference, estimated, IsSeventh, SameNotes);

    /// <summary>The same with the bass.</summary>
    public static bool? SeventhsWithBass(string reference, string estimated) =>
        Judge(reference, estimated, IsSeventh, (r, e) => SameNotes(r, e) && r.Bass == e.Bass);

    /// <summary>At least three pitch classes shared (the MIREX rule); references with fewer aren't judged.</summary>
    public static bool? ThreeShared(string reference, string estimated) =>
        Judge(reference, estimated,
            r => r.Sound == HarteSound.None || r.Bitmap.Count(c => c == '1') >= 3,
            (r, e) => (r.Sound == HarteSound.None && e.Sound == HarteSound.None) || int.PopCount(r.PitchClassMask & e.PitchClassMask) >= 3);

    private static bool? Judge(string reference, string estimated, Func<HarteEncoding, bool> judges, Func<HarteEncoding, HarteEncoding, bool> same)
    {
        var (r, e) = (HarteLabel.Encode(reference), HarteLabel.Encode(estimated));
        return r.Sound == HarteSound.Unknown || !judges(r) ? null : same(r, e);
    }

    private static bool SameTriad(HarteEncoding r, HarteEncoding e) => r.Root == e.Root && r.Bitmap[..8] == e.Bitmap[..8];

    private static bool SameNotes(HarteEncoding r, HarteEncoding e) => r.Root == e.Root && r.Bitmap == e.Bitmap;

    private static bool IsMajorMinor(HarteEncoding r) =>
        r.Sound == HarteSound.None || r.Bitmap[..8] == Major[..8] || r.Bitmap[..8] == Minor[..8];

    private static bool IsSeventh(HarteEncoding r) => SeventhsVocabulary.Contains(r.Bitmap);
}
