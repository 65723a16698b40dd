using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Songs;

/// <summary>A chord's name as a song file writes it: symbol, and perhaps a label behind "@".</summary>
internal static class WrittenName
{
    /// <summary>The name moved by an interval: root and bass move, the words between them and the label stay as they are written.</summary>
    public static string Moved(string name, Interval by)
    {
        var symbol = NamedShape.SymbolOf(name);
        if (!ChordSymbol.TryRead(symbol, out var chord) || chord.IsNone)
            return name;
        var moved = chord.Transposed(by);
        var kept = WithNotes(symbol, moved);
        return (ChordSymbol.TryRead(kept, out var same) && same == moved ? kept : ChordSymbol.Write(moved)) + name[symbol.Length..];
    }

    private static string WithNotes(string symbol, Chord chord)
    {
        var kind = symbol[1..].TrimStart('#', 'b', '♯', '♭');
        var slash = kind.LastIndexOf('/');
        return chord.Root + (slash >= 0 && PitchName.TryParse(kind[(slash + 1)..].Replace('♯', '#').Replace('♭', 'b'), out _) ? $"{kind[..slash]}/{chord.Bass}"
            : kind);
    }
}
