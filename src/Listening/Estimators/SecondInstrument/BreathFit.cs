using System.Collections.Immutable;
using Harkbook.Music.Instruments.Harmonicas;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>How far a line is one that a harmonica can play: on its likeliest harmonica, the shares of breaths and notes that speak for it and against
/// it.</summary>
/// <param name="OnOneBreath">The share of all breaths that are several notes which neighbouring holes give together.</param>
/// <param name="NotOneBreath">The share that are several notes which no breath gives together.</param>
/// <param name="Missing">The share of notes that the harmonica hasn't got, bends included.</param>
internal readonly record struct BreathFit(double OnOneBreath, double NotOneBreath, double Missing)
{
    public static BreathFit Of(ImmutableArray<HeardLineNote> notes, ImmutableArray<HeardKey> keys)
    {
        if (notes.IsEmpty)
            return default;
        var harp = Harmonica.Richter(new HarpFinder(keys).Rank(notes).Best.Key);
        var breaths = BreathGroups.Of(notes);
        var together = breaths.Count(b => b.Length > 1);
        var onOne = breaths.Count(b => b.Length > 1 && BreathGroups.OnOneBreath(harp, b).Count > 0);
        var missing = notes.Count(n => !harp.NotesFor(n.Midi).Any(w => w.Bend <= 0));
        return new((double)onOne / breaths.Count, (double)(together - onOne) / breaths.Count, (double)missing / notes.Length);
    }
}
