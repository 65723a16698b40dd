using System.Numerics;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Rhythm;

/// <summary>
/// Syncopation after M. Keith, "From Polychords to Pólya", 1991: a note's length, rounded down to a power of two, says which
/// pulse it belongs to; starting off that pulse costs 2, ending off it 1.
/// </summary>
public static class KeithRule
{
    private const int PerBeat = 4;

    /// <summary>
    /// Of a bar that is repeated, each note lasting until the next starts. Null where the rule has no answer: it is made for
    /// bars of two, four or eight undivided beats on a grid of sixteenths.
    /// </summary>
    public static int? Repeated(Meter meter, IReadOnlyList<Beats> onsets)
    {
        if (meter.IsCompound || !BitOperations.IsPow2(meter.BeatsPerBar) || onsets.Any(o => PerBeat % o.Denominator != 0))
            return null;
        var steps = onsets.Select(o => (o * PerBeat).Numerator).ToArray();
        var bar = meter.BeatsPerBar * PerBeat;
        return steps.Select((step, i) => Cost(step, i + 1 < steps.Length ? steps[i + 1] : steps[0] + bar)).Sum();
    }

    private static int Cost(int start, int end)
    {
        var pulse = (int)BitOperations.RoundUpToPowerOf2((uint)(end - start) + 1) / 2;
        return (start % pulse == 0 ? 0 : 2) + (end % pulse == 0 ? 0 : 1);
    }
}
