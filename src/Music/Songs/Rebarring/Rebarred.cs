using System.Collections.Immutable;

namespace Harkbook.Music.Songs.Rebarring;

/// <summary>A song barred anew.</summary>
/// <param name="Remarks">What was decided on the way, for the person to look at: borders that moved, bars that came out shorter.</param>
public sealed record Rebarred(string Text, ImmutableArray<string> Remarks);

/// <summary>The song can't be barred so; the message says why and what can be done.</summary>
public sealed class RebarException(string message) : Exception(message);
