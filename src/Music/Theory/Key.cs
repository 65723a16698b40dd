using System.Diagnostics.CodeAnalysis;

namespace Harkbook.Music.Theory;

/// <summary>A tonic in a mode, as in "D major" or "A mixolydian".</summary>
public sealed record Key(PitchName Tonic, Mode Mode)
{
    /// <summary>The key signature: sharps (positive) or flats (negative).</summary>
    public int Signature => Tonic.Fifths + Mode.Intervals.Sum(i => i.Fifths) / 7 - 2;

    /// <summary>The place on the line of fifths to spell near in this key: the middle of its scale with the usual chromatic notes.</summary>
    public int Centre => Signature + 2;

    public static bool TryParse([NotNullWhen(true)] string? text, [NotNullWhen(true)] out Key? key)
    {
        key = null;
        var words = text?.Split(' ', StringSplitOptions.RemoveEmptyEntries) ?? [];
        if (words.Length is < 1 or > 2 || !PitchName.TryParse(words[0], out var tonic))
            return false;
        var mode = words.Length == 1 ? Mode.Major : Mode.All.FirstOrDefault(m => m.Name == words[1]);
        key = mode is null ? null : new Key(tonic, mode);
        return key is not null;
    }

    public static Key Parse(string text) =>
        TryParse(text, out var key)
            ? key
            : throw new FormatException($"'{text}' is not a key; write a tonic and a mode, as in 'D major' or 'A dorian'.");

    public override string ToString() => $"{Tonic} {Mode}";
}
