using System.Text.RegularExpressions;
using Harkbook.Music.Theory;

namespace Harkbook.Bench.Folk;

/// <summary>
/// A chord symbol over a tune, as F#m7 or D/F#. The Nottingham Music Database writes the bass as a small letter with + for a sharp: D/f+.
/// </summary>
internal sealed partial record ChordSymbol(PitchName Root, string Kind, PitchName Bass)
{
    private static readonly Dictionary<string, (string Harte, int[] Notes)> Kinds = new()
    {
        [""] = ("maj", [0, 4, 7]), ["m"] = ("min", [0, 3, 7]), ["7"] = ("7", [0, 4, 7, 10]), ["m7"] = ("min7", [0, 3, 7, 10]), ["maj7"] = ("maj7", [0, 4, 7, 11]),
        ["6"] = ("maj6", [0, 4, 7, 9]), ["m6"] = ("min6", [0, 3, 7, 9]), ["dim"] = ("dim", [0, 3, 6]), ["+"] = ("aug", [0, 4, 8]), ["sus4"] = ("sus4", [0, 5, 7]),
    };

    /// <summary>Pitch classes, the root first.</summary>
    public int[] Notes => [.. Kinds[Kind].Notes.Select(n => (Root.PitchClass + n) % 12)];

    /// <summary>The label in Harte's syntax.</summary>
    public string Harte => $"{Root}:{Kinds[Kind].Harte}{(Bass == Root ? "" : "/" + Degree)}";

    private string Degree => new[] { "1", "b2", "2", "b3", "3", "4", "b5", "5", "b6", "6", "b7", "7" }[(Bass.PitchClass - Root.PitchClass + 12) % 12];

    /// <returns>Null where the symbol isn't understood.</returns>
    public static ChordSymbol? Read(string text)
    {
        var match = Form().Match(text);
        if (!match.Success || !Kinds.ContainsKey(match.Groups[2].Value))
            return null;
        var root = PitchName.Parse(match.Groups[1].Value);
        var bass = match.Groups[3].Value.Replace('+', '#');
        return new(root, match.Groups[2].Value, bass.Length == 0 ? root : PitchName.Parse(char.ToUpperInvariant(bass[0]) + bass[1..]));
    }

    [GeneratedRegex(@"^([A-G][#b]?)([^/]*)(?:/([A-Ga-g][#b+]?))?$")]
    private static partial Regex Form();
}
