using Harkbook.Units;

namespace Harkbook.Music.Songs;

/// <summary>A place at which a note, a breath or a silence may start.</summary>
/// <param name="Part">Of the parts that hold one sign at a place, any.</param>
/// <param name="Bar">Through the song, from 1.</param>
/// <param name="At">From the bar's start.</param>
/// <param name="StringIndex">Of a picked note, 0 for the lowest string; −1 for all other parts.</param>
public readonly record struct NotePlace(SongPart Part, int Bar, Beats At, int StringIndex = -1);
