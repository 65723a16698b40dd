using System.Collections.Immutable;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Checking;

/// <summary>What a song claims that a check doesn't ask the recording about: it weighs pitch and time.</summary>
internal static class NotAsked
{
    public static ImmutableArray<string> Of(Song song) =>
    [
        .. from kind in new (string Words, Func<Bar, bool> Has)[]
           {
               ("on which strings notes are picked, and how", b => b.Picked.Length > 0),
               ("strokes", b => b.Strums.Length > 0),
               ("sung words and where they start", b => b.Sung.Length > 0),
               ("which holes of the harmonica give its notes", b => b.Harp.Length > 0),
           }
           where song.Bars.Any(kind.Has)
           select kind.Words,
        .. song.Shapes.Any(s => !s.Shape.Fingers.IsEmpty) ? ["which fingers hold the shapes"] : (string[])[],
    ];
}
