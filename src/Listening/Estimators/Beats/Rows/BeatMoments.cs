using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Beats.Rows;

/// <summary>
/// The frames that a beat may fall on: where the beat network or the sound itself peaks, and evenly between where nothing does. So a row of beats
/// is sought among some fifteen moments a second instead of fifty frames, and loses nothing: who plays a beat makes a peak.
/// </summary>
internal static class BeatMoments
{
    private const int Near = 2;
    private const int Gap = 4;
    private const int Spacing = 3;
    private const double OnsetWeight = 0.5, LoudestOnset = 4;

    /// <param name="onsets">How much starts in each frame, in root mean squares of its surroundings.</param>
    /// <param name="held">Frames where a person put a beat, rising: no other moment lies near them.</param>
    /// <returns>Rising.</returns>
    public static int[] Of(float[] beat, double[] onsets, SoundingSpan span, IReadOnlyList<int> held)
    {
        var salience = new double[span.Last - span.First + 1];
        for (var f = 0; f < salience.Length; f++)
            salience[f] = LogOdds.Of(beat[span.First + f]) + OnsetWeight * Math.Min(LoudestOnset, onsets[span.First + f]);
        var moments = new List<int>();
        for (var f = 0; f < salience.Length; f++)
        {
            if (IsPeak(salience, f) && !Holds(held, span.First + f))
                moments.Add(span.First + f);
        }
        moments.AddRange(held.Where(f => f >= span.First && f <= span.Last));
        moments.Sort();
        return [.. Filled(moments, span)];
    }

    private static bool IsPeak(double[] salience, int f)
    {
        for (var g = Math.Max(0, f - Near); g <= Math.Min(salience.Length - 1, f + Near); g++)
        {
            if (salience[g] > salience[f] || (salience[g] == salience[f] && g < f))
                return false;
        }
        return true;
    }

    private static bool Holds(IReadOnlyList<int> held, int frame) => held.Any(h => Math.Abs(h - frame) <= Near);

    private static IEnumerable<int> Filled(List<int> peaks, SoundingSpan span)
    {
        var before = span.First - Spacing;
        foreach (var peak in peaks.Append(span.Last + Spacing))
        {
            var parts = peak - before > Gap ? (peak - before) / Spacing : 1;
            for (var p = 1; p < parts; p++)
                yield return before + (peak - before) * p / parts;
            if (peak <= span.Last)
                yield return peak;
            before = peak;
        }
    }
}
