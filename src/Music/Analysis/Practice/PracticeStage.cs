using System.Collections.Immutable;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Practice;

/// <summary>One speed of a practice.</summary>
/// <param name="Speed">Share of the song's tempo.</param>
/// <param name="Tempo">Felt beats a minute, the mean of its bars.</param>
/// <param name="At">Where its counted bar starts.</param>
/// <param name="Rounds">Where each round's first bar starts.</param>
public sealed record PracticeStage(double Speed, double Tempo, Seconds At, ImmutableArray<Seconds> Rounds);
