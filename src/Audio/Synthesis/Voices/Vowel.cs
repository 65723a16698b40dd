using System.Collections.Immutable;

namespace Harkbook.Audio.Synthesis.Voices;

/// <summary>
/// A vowel by its first three formants: men's means from Peterson &amp; Barney, "Control methods used in a study of the
/// vowels", JASA 24(2), 1952, table II (from memory).
/// </summary>
public sealed record Vowel
{
    private Vowel(string name, params ImmutableArray<double> formants) => (Name, Formants) = (name, formants);

    /// <summary>As in a word: "heed", "had" …</summary>
    public string Name { get; }

    /// <summary>Hertz, rising.</summary>
    public ImmutableArray<double> Formants { get; }

    public static ImmutableArray<Vowel> All { get; } =
    [
        new("heed", 270, 2290, 3010), new("hid", 390, 1990, 2550), new("head", 530, 1840, 2480), new("had", 660, 1720, 2410),
        new("hod", 730, 1090, 2440), new("hawed", 570, 840, 2410), new("hood", 440, 1020, 2240), new("who", 300, 870, 2240),
        new("hud", 640, 1190, 2390), new("heard", 490, 1350, 1690),
    ];
}
