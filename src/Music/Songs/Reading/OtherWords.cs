using System.Collections.Frozen;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Songs.Reading;

/// <summary>What players write at a line's start for what a song file calls otherwise.</summary>
internal static class OtherWords
{
    private static readonly FrozenDictionary<string, string> Meant = new (string Words, string Meant)[]
    {
        ("lyric lyrics word words text sing", "What is sung is a line such as sung | The fer- ry . |, a syllable a cell."),
        ("instrument strings guitar", "The strings are a line such as tuning standard, or tuning ukulele."),
        ("artist band by composer", "Who plays is a line such as player Wren Adair."),
        ("bpm speed", "The beats a minute are a line such as tempo 96."),
        ("time timing", "The meter is a line such as meter 4/4."),
        ("tab notes picking riff", "Picked bars are a line pick with a line for each string below, as in E4 | 0 . 2 . |."),
        ("strumming rhythm", "Strokes are a line such as strum throughout | d . du . |."),
        ("audio file record sound", "The recording is a line such as recording take.wav."),
        ("verse chorus bridge intro outro part refrain", "A section starts with its name, as in section Verse 1."),
    }.SelectMany(m => m.Words.Split(' ').Select(word => (word, m.Meant))).ToFrozenDictionary(m => m.word, m => m.Meant);

    /// <summary>What to write in a line's place; null where nothing known was meant.</summary>
    public static string? Suggest(LineSyntax line)
    {
        var word = line.Keyword.Text;
        if (word.StartsWith('['))
            return "A section starts with its name, as in section Verse 1.";
        if (Meant.GetValueOrDefault(word.TrimEnd(':', '=').ToLowerInvariant()) is { } meant)
            return meant;
        return ChordSymbol.TryRead(word, out _)
            ? "Chords are a line such as chords | C . G . | Am |, a bar between bar lines." : null;
    }
}
