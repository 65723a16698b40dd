using System.Collections.Immutable;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators;

/// <summary>
/// What sounds in a stretch of time, octaves folded: for each pitch class the chance that it sounds (<see cref="Sounding"/>),
/// how much of the stretch it takes (<see cref="Amount"/>), and the chance that it is the lowest (<see cref="Bass"/>).
/// All three have 12 values, C first.
/// </summary>
internal sealed record PitchClassContent(double[] Sounding, double[] Amount, double[] Bass)
{
    private const float LeastSounding = 0.05f;

    /// <summary>The chance that nothing sounds.</summary>
    public double Silence => 1 - Bass.Sum();

    public static PitchClassContent Between(NoteEvidence evidence, Seconds start, Seconds end)
    {
        var first = evidence.FrameAt(start);
        var last = Math.Max(first + 1, evidence.FrameAt(end));
        var pitches = MeanOver(evidence, first, Math.Min(last, evidence.Frames));
        var (absent, amount, bass, nothingLower) = (Enumerable.Repeat(1.0, 12).ToArray(), new double[12], new double[12], 1.0);
        for (var p = 0; p < pitches.Length; p++)
        {
            var pitchClass = (evidence.LowestMidi + p) % 12;
            absent[pitchClass] *= 1 - pitches[p];
            amount[pitchClass] += pitches[p];
            bass[pitchClass] += pitches[p] * nothingLower;
            nothingLower *= 1 - pitches[p];
        }
        return new([.. absent.Select(a => 1 - a)], amount, bass);
    }

    private static double[] MeanOver(NoteEvidence evidence, int first, int last)
    {
        var means = new double[evidence.Pitches];
        for (var f = first; f < last; f++)
        {
            for (var p = 0; p < means.Length; p++)
            {
                if (evidence.Sounding[f, p] > LeastSounding)
                    means[p] += evidence.Sounding[f, p];
            }
        }
        return [.. means.Select(m => Math.Min(0.999, m / Math.Max(1, last - first)))];
    }
}
