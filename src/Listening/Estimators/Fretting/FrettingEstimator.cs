using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Stiffness;
using Harkbook.Music.Instruments.Hands;

namespace Harkbook.Listening.Estimators.Fretting;

/// <summary>
/// Says on which string and at which fret each note was probably played on a guitar in a given tuning: one search over time for the way that
/// asks least of the hand, cuts off nothing that rings on, and sounds pitches where the rest of the piece sounds them.
/// </summary>
/// <param name="hand">The player's; a usual one where nobody said.</param>
public sealed class FrettingEstimator(FretWeights? weights = null, Hand? hand = null)
{
    /// <summary>The same notes in the same order, each with its place; without one where no string takes it (another instrument's, or misheard).</summary>
    public ImmutableArray<HeardNote> Estimate(ImmutableArray<HeardNote> notes, HeardTuning guitar, CancellationToken ct = default) =>
        Estimate(notes, guitar, StiffNotes.None, ct);

    internal ImmutableArray<HeardNote> Estimate(ImmutableArray<HeardNote> notes, HeardTuning guitar, StiffNotes stiff, CancellationToken ct)
    {
        var neck = new Neck(guitar.Tuning, guitar.Capo, hand);
        var path = Fretter.Find(notes, neck, weights, StringCosts.Of(notes, guitar.Tuning, guitar.Capo, stiff, weights), ct);
        return [.. notes.Select((note, i) => note with { Place = path.Strings[i] < 0 ? null : new(path.Strings[i], path.Frets[i], path.Confidence[i]) })];
    }
}
