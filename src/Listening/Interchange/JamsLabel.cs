using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Labels;

namespace Harkbook.Listening.Interchange;

/// <summary>Chords and keys as the JAMS namespaces chord_harte and key_mode spell them.</summary>
internal static class JamsLabel
{
    // The shorthands of chord_harte, from the published description of its namespaces.
    private static readonly string[] Shorthands =
        ["maj", "min", "dim", "aug", "maj7", "min7", "7", "dim7", "hdim7", "minmaj7", "maj6", "min6", "9", "maj9", "min9", "sus4"];

    /// <summary>Chords without a shorthand there become lists of degrees: "A:(2,5)".</summary>
    public static string Of(Chord chord)
    {
        var label = HarteLabel.Write(chord);
        var parts = HarteLabel.Split(label);
        if (parts.Sound != HarteSound.Chord || Shorthands.Contains(parts.Shorthand))
            return label;
        var degrees = string.Join(',', chord.Quality.Intervals.Skip(1).Select(i => i.DegreeName));
        var bass = label.Contains('/') ? label[label.IndexOf('/')..] : "";
        return $"{chord.Root}:({(degrees.Length == 0 ? "1" : degrees)}){bass}";
    }

    public static string Of(Key key) => $"{key.Tonic}:{key.Mode}";

    /// <summary>A label in the wider syntax of annotations; null where it names no chord ("X").</summary>
    public static string? OfChord(string label) => HarteLabel.TryRead(label, out var chord) ? Of(chord) : null;

    /// <summary>A key written as "D major"; null where it is none.</summary>
    public static string? OfKey(string key) => Key.TryParse(key, out var read) ? Of(read) : null;
}
