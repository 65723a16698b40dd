using Harkbook.Listening.Checking;
using Harkbook.Music.Songs;

namespace Harkbook.Workbench.Sheet;

/// <summary>A place of a bar's grid.</summary>
/// <param name="Sign">What starts here, as a song file writes it; null where nothing does.</param>
/// <param name="Standing">Of what starts here.</param>
/// <param name="Rings">Whether what started before still sounds.</param>
/// <param name="Heard">What was heard to start here and isn't written.</param>
public sealed record NoteCell(string? Sign, Standing? Standing, bool Rings, UnwrittenNote? Heard);
