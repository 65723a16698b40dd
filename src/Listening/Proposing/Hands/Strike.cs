using System.Collections.Immutable;

namespace Harkbook.Listening.Proposing.Hands;

/// <summary>Notes of the guitar that start together.</summary>
/// <param name="Time">In seconds.</param>
/// <param name="Place">In beats from the first bar's start.</param>
/// <param name="Bar">By index.</param>
internal sealed record Strike(double Time, double Place, int Bar, ImmutableArray<HeardNote> Notes)
{
    /// <summary>How many strings sound.</summary>
    public int Strings => Notes.Select(n => n.Place!.StringIndex).Distinct().Count();
}
