using Harkbook.Listening.Evidence;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators;

/// <summary>
/// What sounds in a stretch of time, octaves folded: for each pitch class the chance that it sounds (<see cref="Sounding"/>),
/// how much of the stretch it takes (<see cref="Amount"/>), and the chance that it is the lowest (<see cref="Bass"/>).
/// All three have 12 values, C first.
/// </summary>
internal sealed record PitchClassContent(double[] Sounding, double[] Amount, double[] Bass)
{
    /// <summary>The chance that nothing sounds.</summary>
    public double Silence => 1 - Bass.Sum();

    public static PitchClassContent Between(NotePosteriorgram evidence, Seconds start, Seconds end)
    {
        var first = evidence.FrameAt(start);
        var last = Math.Max(first + 1, evidence.FrameAt(end));
        var (loudest, steady) = (Means(evidence, first, Math.Min(last, evidence.Frames), 3), Means(evidence, first, Math.Min(last, evidence.Frames), 1));
        var (absent, amount, bass, nothingLower) = (Enumerable.Repeat(1.0, 12).ToArray(), new double[12], new double[12], 1.0);
        for (var p = 0; p < evidence.Pitches; p++)
        {
            var pitchClass = (evidence.LowestMidi + p) % 12;
            absent[pitchClass] *= 1 - loudest[p];
            amount[pitchClass] += loudest[p];
            bass[pitchClass] += steady[p] * nothingLower;
            nothingLower *= 1 - steady[p];
        }
        return new([.. absent.Select(a => 1 - a)], amount, bass);
    }

    /// <summary>
    /// Power means of each pitch: 1 is the plain mean; 3 leans to the louder frames, so that a short note in a span still counts.
    /// </summary>
    /// <returns>A value below 1 for each pitch of the evidence.</returns>
    public static double[] Means(NotePosteriorgram evidence, int first, int last, int power)
    {
        var sums = new double[evidence.Pitches];
        for (var f = first; f < last; f++)
        {
            for (var p = 0; p < sums.Length; p++)
                sums[p] += Math.Pow(evidence.Sounding[f, p], power);
        }
        return [.. sums.Select(s => Math.Min(0.999, Math.Pow(s / Math.Max(1, last - first), 1.0 / power)))];
    }
}
