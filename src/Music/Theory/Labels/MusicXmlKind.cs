using System.Collections.Immutable;

namespace Harkbook.Music.Theory.Labels;

/// <summary>
/// The chord kinds of MusicXML 4.0 (W3C Community Group Final Report, XSD type "kind-value", 33 values) and what each holds.
/// </summary>
/// <param name="Value">As written in the file: "dominant-ninth".</param>
/// <param name="Quality">The intervals above the root; null for the five functional kinds and "other", which the standard leaves open; no intervals for "none".</param>
public sealed record MusicXmlKind(string Value, ChordQuality? Quality)
{
    public static ImmutableArray<MusicXmlKind> All { get; } =
    [
        Of("major", "1 3 5"), Of("minor", "1 b3 5"), Of("augmented", "1 3 #5"), Of("diminished", "1 b3 b5"),
        Of("dominant", "1 3 5 b7"), Of("major-seventh", "1 3 5 7"), Of("minor-seventh", "1 b3 5 b7"),
        Of("diminished-seventh", "1 b3 b5 bb7"), Of("augmented-seventh", "1 3 #5 b7"), Of("half-diminished", "1 b3 b5 b7"),
        Of("major-minor", "1 b3 5 7"), Of("major-sixth", "1 3 5 6"), Of("minor-sixth", "1 b3 5 6"),
        Of("dominant-ninth", "1 3 5 b7 9"), Of("major-ninth", "1 3 5 7 9"), Of("minor-ninth", "1 b3 5 b7 9"),
        Of("dominant-11th", "1 3 5 b7 9 11"), Of("major-11th", "1 3 5 7 9 11"), Of("minor-11th", "1 b3 5 b7 9 11"),
        Of("dominant-13th", "1 3 5 b7 9 11 13"), Of("major-13th", "1 3 5 7 9 11 13"), Of("minor-13th", "1 b3 5 b7 9 11 13"),
        Of("suspended-second", "1 2 5"), Of("suspended-fourth", "1 4 5"),
        new("Neapolitan", null), new("Italian", null), new("French", null), new("German", null),
        Of("pedal", "1"), Of("power", "1 5"), new("Tristan", null), new("other", null), new("none", ChordQuality.None),
    ];

    private static MusicXmlKind Of(string value, string degrees) => new(value, ChordQuality.FromDegrees(degrees));
}
