using System.Collections.Immutable;

namespace Harkbook.Music.Theory.Labels;

/// <summary>
/// The shorthands of chord labels. The first 16 are those of Harte, Sandler, Abdallah and Gómez, ISMIR 2005, table 1;
/// the rest are the additions that annotations and the JAMS chord namespace use. Where two write a chord with as few changes,
/// the earlier is taken.
/// </summary>
/// <param name="OctaveBase">The shorthand whose degrees an extended chord has within one octave, for scoring without extensions.</param>
internal sealed record HarteShorthand(string Name, ChordQuality Quality, string OctaveBase)
{
    public static ImmutableArray<HarteShorthand> All { get; } =
    [
        Of("maj", "1 3 5"), Of("min", "1 b3 5"), Of("7", "1 3 5 b7"), Of("maj7", "1 3 5 7"), Of("min7", "1 b3 5 b7"),
        Of("dim", "1 b3 b5"), Of("aug", "1 3 #5"), Of("sus4", "1 4 5"), Of("dim7", "1 b3 b5 bb7"), Of("hdim7", "1 b3 b5 b7"),
        Of("minmaj7", "1 b3 5 7"), Of("maj6", "1 3 5 6"), Of("min6", "1 b3 5 6"),
        Of("9", "1 3 5 b7 9", "7"), Of("maj9", "1 3 5 7 9", "maj7"), Of("min9", "1 b3 5 b7 9", "min7"),
        Of("sus2", "1 2 5"), Of("1", "1"), Of("5", "1 5"), Of("aug7", "1 3 #5 b7"),
        Of("11", "1 3 5 b7 9 11", "7"), Of("maj11", "1 3 5 7 9 11", "maj7"), Of("min11", "1 b3 5 b7 9 11", "min7"),
        Of("13", "1 3 5 b7 9 11 13", "7"), Of("maj13", "1 3 5 7 9 11 13", "maj7"), Of("min13", "1 b3 5 b7 9 11 13", "min7"),
    ];

    private static ImmutableArray<HarteShorthand> LongestFirst { get; } = [.. All.OrderByDescending(s => s.Name.Length)];

    public static HarteShorthand Named(string name) => All.First(s => s.Name == name);

    public static HarteShorthand? Take(TextCursor cursor) => LongestFirst.FirstOrDefault(s => cursor.Take(s.Name));

    private static HarteShorthand Of(string name, string degrees, string? octaveBase = null) =>
        new(name, ChordQuality.FromDegrees(degrees), octaveBase ?? name);
}
