using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Stiffness;
using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Listening.Estimators.Fretting;

/// <summary>What the stiffness of each note's string says against putting it on another string.</summary>
internal static class StringCosts
{
    /// <summary>By note and string, in the currency of <see cref="FretWeights"/>; null where nothing is known of any note.</summary>
    /// <param name="stiff">Of these notes.</param>
    public static Func<int, int, double>? Of(ImmutableArray<HeardNote> notes, Tuning tuning, Capo capo, StiffNotes stiff, FretWeights? weights = null)
    {
        var telling = Enumerable.Range(0, notes.Length).Where(stiff.Knows).Select(i => (notes[i].Midi, Note: i)).ToArray();
        if (telling.Length == 0)
            return null;
        var (constants, neck) = (StringConstants.Of(stiff, telling, tuning, capo), new Neck(tuning, capo));
        var costs = new double[notes.Length][];
        foreach (var (midi, note) in telling)
            costs[note] = Costs(constants, neck, midi, note, (weights ?? FretWeights.Usual).Stiffness);
        return (note, s) => costs[note]?[s] ?? 0;
    }

    /// <summary>Nothing on the string that suits best.</summary>
    private static double[] Costs(StringConstants constants, Neck neck, int midi, int note, double weight)
    {
        var logs = Enumerable.Range(0, neck.Strings)
            .Select(s => neck.FretOf(midi, s) is >= 0 and var fret ? Math.Log(constants.Of(note, s, fret)) : double.NegativeInfinity).ToArray();
        var best = logs.Max();
        return [.. logs.Select(log => double.IsNegativeInfinity(log) ? 0 : weight * (best - log))];
    }
}
