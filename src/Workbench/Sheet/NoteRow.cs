using System.Collections.Immutable;
using Harkbook.Music.Songs;

namespace Harkbook.Workbench.Sheet;

/// <summary>A row of a bar's grid: a string, the tune, or the harmonica.</summary>
/// <param name="StringIndex">0 for the lowest string; −1 for what has none.</param>
public sealed record NoteRow(SongPart Part, int StringIndex, string Label, ImmutableArray<NoteCell> Cells);
