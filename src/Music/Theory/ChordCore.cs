using System.Collections.Immutable;

namespace Harkbook.Music.Theory;

/// <summary>
/// The kinds of chord that symbols build on: how each is written, what it holds, and what else is read as it.
/// Spellings of triads, sevenths, 9 and 6/9: "Open Music Theory" (triads) and "Integrated Music Theory 2018–19", section 3c;
/// the others are common practice.
/// </summary>
internal sealed record ChordCore(string Written, ChordQuality Quality, double Cost, ImmutableArray<string> AlsoRead)
{
    public static ImmutableArray<ChordCore> All { get; } =
    [
        Of("", "1 3 5", 0, "maj", "Maj", "M"),
        Of("m", "1 b3 5", 0, "min", "mi", "-"),
        Of("5", "1 5", 0),
        Of("7", "1 3 5 b7", 0, "dom7"),
        Of("maj7", "1 3 5 7", 0, "Maj7", "MAJ7", "MA7", "M7", "ma7", "Δ7", "Δ"),
        Of("m7", "1 b3 5 b7", 0, "min7", "mi7", "MI7", "-7"),
        Of("sus4", "1 4 5", 0, "sus", "4"),
        Of("sus2", "1 2 5", 0),
        Of("dim", "1 b3 b5", 0, "°", "o"),
        Of("aug", "1 3 #5", 0, "+"),
        Of("6", "1 3 5 6", 0, "maj6", "M6"),
        Of("m6", "1 b3 5 6", 0, "min6", "mi6", "-6"),
        Of("7sus4", "1 4 5 b7", 0, "7sus"),
        Of("add9", "1 3 5 9", .2, "2"),
        Of("madd9", "1 b3 5 9", .2, "m2"),
        Of("9", "1 3 5 b7 9", 0),
        Of("maj9", "1 3 5 7 9", 0, "Maj9", "M9", "ma9", "Δ9"),
        Of("m9", "1 b3 5 b7 9", 0, "min9", "mi9", "-9"),
        Of("dim7", "1 b3 b5 bb7", 0, "°7", "o7"),
        Of("dim9", "1 b3 b5 bb7 9", .1, "°9", "o9"),
        Of("m7b5", "1 b3 b5 b7", 0, "ø7", "ø"),
        Of("m(maj7)", "1 b3 5 7", 0, "mmaj7", "mMaj7", "mM7", "m/M7", "m/ma7", "m(M7)", "m(Maj7)", "m/maj7", "min/maj7", "minMaj7", "min(maj7)", "minmaj7",
            "mΔ7", "mΔ", "-Δ7", "-Δ", "-maj7", "-M7"),
        Of("6/9", "1 3 5 6 9", 0, "69", "6add9", "maj6/9", "M69"),
        Of("m6/9", "1 b3 5 6 9", 0, "m69", "m6add9", "min6/9", "-6/9", "-69"),
        Of("9sus4", "1 4 5 b7 9", 0, "9sus"),
        Of("11", "1 5 b7 9 11", 0),
        Of("maj11", "1 5 7 9 11", 0, "Maj11", "M11", "Δ11"),
        Of("m11", "1 b3 5 b7 9 11", 0, "min11", "mi11", "-11"),
        Of("13", "1 3 5 b7 9 13", 0),
        Of("maj13", "1 3 5 7 9 13", 0, "Maj13", "M13", "ma13", "Δ13"),
        Of("m13", "1 b3 5 b7 9 11 13", 0, "min13", "mi13", "-13"),
        Of("13sus4", "1 4 5 b7 9 13", 0, "13sus"),
        Of("7#5", "1 3 #5 b7", 0, "+7", "aug7", "7+", "7aug"),
        Of("maj7#5", "1 3 #5 7", 0, "+maj7", "+M7", "augmaj7", "aug(maj7)", "maj7+"),
        Of("9#5", "1 3 #5 b7 9", 0, "+9", "aug9", "9+"),
        Of("m9b5", "1 b3 b5 b7 9", 0, "ø9"),
        Of("m11b5", "1 b3 b5 b7 9 11", 0, "ø11"),
        Of("m(maj9)", "1 b3 5 7 9", 0, "mmaj9", "mMaj9", "mM9", "mΔ9", "-Δ9", "m(M9)", "min(maj9)", "minmaj9", "-maj9", "-M9"),
        Of("dim(maj7)", "1 b3 b5 7", .3, "°(maj7)", "°maj7", "°M7", "dimmaj7", "dimM7"),
        Of("7sus2", "1 2 5 b7", .1),
        Of("maj7sus4", "1 4 5 7", .1, "maj7sus", "M7sus4"),
        Of("maj7sus2", "1 2 5 7", .1, "M7sus2"),
        Of("6sus4", "1 4 5 6", .1),
        Of("6sus2", "1 2 5 6", .1),
        Of("sus2sus4", "1 2 4 5", .1, "sus24", "sus4sus2"),
        Of("7alt", "1 3 b7 b9 #9 #11 b13", .3, "alt"),
    ];

    /// <summary>Every spelling with its quality, the longest first.</summary>
    public static ImmutableArray<(string Text, ChordQuality Quality)> Spellings { get; } =
        [.. All.SelectMany(c => c.AlsoRead.Append(c.Written).Select(text => (text, c.Quality))).OrderByDescending(s => s.text.Length)];

    /// <summary>Ends in a number, so that an altered degree can follow it bare, as in 7b9.</summary>
    public bool IsNumbered => Written.Any(c => c is '6' or '7' or '9' or '1') && !Written.StartsWith("add", StringComparison.Ordinal) && Written != "madd9";

    private static ChordCore Of(string written, string degrees, double cost, params ImmutableArray<string> alsoRead) =>
        new(written, ChordQuality.FromDegrees(degrees), cost, alsoRead);
}
