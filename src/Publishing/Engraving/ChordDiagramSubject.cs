using Harkbook.Music.Instruments;
using Harkbook.Music.Songs;

namespace Harkbook.Publishing.Engraving;

/// <summary>What a chord diagram shows: a shape on the strings of a tuning, under a capo.</summary>
/// <param name="Name">The chord symbol, with its label behind "@" where it has one.</param>
/// <param name="Centre">The place on the line of fifths near which sounding notes are spelled (a key's Centre).</param>
public sealed record ChordDiagramSubject(Shape Shape, string Name, Tuning Tuning, Capo Capo, Standing Standing, int Centre = 2);
