using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Rhythm;

/// <summary>A syllable's start as somebody tapped or marked it against the recording.</summary>
/// <param name="Syllable">"x" where only the rhythm is known.</param>
public readonly record struct Tap(Seconds At, string Syllable)
{
    /// <summary>Reads a line, "0:12.402 The" or "12.402": a time, then perhaps the syllable; null where it is none.</summary>
    public static Tap? Read(string line)
    {
        var words = line.Split([' ', '\t'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        return words.Length is 1 or 2 && TimeText.TryRead(words[0], out var at) ? new(at, words.Length == 2 ? words[1] : "x") : null;
    }
}
