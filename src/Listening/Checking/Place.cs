using Harkbook.Units;

namespace Harkbook.Listening.Checking;

/// <summary>Where a claim stands: a time in the recording and, for songs, bar and beat (both from 1).</summary>
public sealed record Place(Seconds Time, int? Bar = null, double? Beat = null);
