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
        var path = Fretter.Find(notes, neck, weights, OnString(notes, guitar, stiff, neck), ct);
        return [.. notes.Select((note, i) => note with { Place = path.Strings[i] < 0 ? null : new(path.Strings[i], path.Frets[i], path.Confidence[i]) })];
    }

    /// <summary>What the stiffness of a note's string says against a string; null where nothing is known.</summary>
    private Func<int, int, double>? OnString(ImmutableArray<HeardNote> notes, HeardTuning guitar, StiffNotes stiff, Neck neck)
    {
        var telling = Enumerable.Range(0, notes.Length).Where(stiff.Knows).Select(i => (notes[i].Midi, Note: i)).ToArray();
        if (telling.Length == 0)
            return null;
        var constants = StringConstants.Of(stiff, telling, guitar.Tuning, guitar.Capo);
        var costs = new double[notes.Length * neck.Strings];
        foreach (var (midi, note) in telling)
        {
            var logs = Enumerable.Range(0, neck.Strings)
                .Select(s => neck.FretOf(midi, s) is >= 0 and var fret ? Math.Log(constants.Of(note, s, fret)) : double.NaN).ToArray();
            var best = logs.Where(l => !double.IsNaN(l)).DefaultIfEmpty().Max();
            for (var s = 0; s < logs.Length; s++)
                costs[note * neck.Strings + s] = double.IsNaN(logs[s]) ? 0 : (weights ?? FretWeights.Usual).Stiffness * (best - logs[s]);
        }
        return (note, s) => costs[note * neck.Strings + s];
    }
}
