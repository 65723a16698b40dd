using Harkbook.Audio.Signals;

namespace Harkbook.Listening.Tests.Estimators.Beats;

/// <summary>A guitar accompaniment with known beats: bass on the first beat, chords after it, a new chord each bar.</summary>
internal static class Accompaniment
{
    // G, C, D, Em in first position, low to high (common practice).
    private static readonly int[][] Chords = [[43, 47, 50, 55, 59, 67], [48, 52, 55, 60, 64], [50, 57, 62, 66], [40, 47, 52, 55, 59, 64]];

    /// <param name="beats">The time of each felt beat, the first one a downbeat.</param>
    /// <param name="divisions">Strokes to a beat: 1, 2 or 3.</param>
    public static Signal Play(double[] beats, int beatsPerBar, int divisions, int rate = 16000)
    {
        var plucks = new Plucks(beats[^1] + 2, rate);
        for (var k = 0; k < beats.Length; k++)
        {
            var chord = Chords[k / beatsPerBar % Chords.Length];
            if (k % beatsPerBar == 0)
                plucks.Note(beats[k], chord[0], 2.5);
            plucks.Strum(beats[k], k % beatsPerBar == 0 ? chord : chord[2..], k % beatsPerBar == 0 ? 1 : 0.8);
            for (var d = 1; d < divisions && k + 1 < beats.Length; d++)
                plucks.Strum(beats[k] + (beats[k + 1] - beats[k]) * d / divisions, chord[2..], 0.45);
        }
        return plucks.Signal;
    }

    public static double[] Steady(double beatsPerMinute, int count, double start = 0.5) =>
        [.. Enumerable.Range(0, count).Select(k => start + k * 60 / beatsPerMinute)];

    /// <summary>A tempo that swells and falls by a share of itself, over a phrase of 32 beats.</summary>
    public static double[] Breathing(double beatsPerMinute, double share, int count)
    {
        var beats = new double[count];
        beats[0] = 0.5;
        for (var k = 1; k < count; k++)
            beats[k] = beats[k - 1] + 60 / (beatsPerMinute * (1 + share * Math.Sin(2 * Math.PI * k / 32)));
        return beats;
    }
}
