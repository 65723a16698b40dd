using System.Collections.Immutable;

namespace Harkbook.Music.Analysis.Hands;

/// <summary>A change of shape and everywhere it is made; places are where the second shape starts.</summary>
public sealed record MadeChange(ShapeChange Change, ImmutableArray<SongPlace> Places);
