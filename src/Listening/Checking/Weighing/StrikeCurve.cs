using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Checking.Weighing;

/// <summary>How much starts in each frame: the onset posteriors of all pitches, summed over three frames.</summary>
internal sealed class StrikeCurve
{
    private readonly float[] curve;
    private readonly double hop;

    public StrikeCurve(NotePosteriorgram notes)
    {
        hop = notes.Hop.Value;
        var frames = new float[notes.Frames];
        for (var f = 0; f < frames.Length; f++)
        {
            for (var p = 0; p < notes.Pitches; p++)
                frames[f] += notes.Onset[f, p];
        }
        curve = new float[frames.Length];
        for (var f = 0; f < curve.Length; f++)
            curve[f] = frames[f] + (f > 0 ? frames[f - 1] : 0) + (f + 1 < frames.Length ? frames[f + 1] : 0);
    }

    /// <summary>The most that starts at once between two times, as its logarithm, and when.</summary>
    public (double Log, double Time) Strongest(double from, double to)
    {
        var best = Frame(from);
        for (var f = best + 1; f <= Frame(to); f++)
        {
            if (curve[f] > curve[best])
                best = f;
        }
        return (curve.Length == 0 ? Log(0) : Log(curve[best]), best * hop);
    }

    /// <summary>Times at which more starts than within so many seconds before and after.</summary>
    public IEnumerable<(double Time, double Log)> Peaks(double from, double to, double apart)
    {
        var reach = (int)(apart / hop);
        for (var f = Frame(from); f <= Frame(to) && curve.Length > 0; f++)
        {
            if (curve[f] > 0 && IsPeak(f, reach))
                yield return (f * hop, Log(curve[f]));
        }
    }

    private bool IsPeak(int frame, int reach)
    {
        for (var f = Math.Max(0, frame - reach); f <= Math.Min(curve.Length - 1, frame + reach); f++)
        {
            if (curve[f] > curve[frame] || (curve[f] == curve[frame] && f < frame))
                return false;
        }
        return true;
    }

    private static double Log(double value) => Math.Log(value + 0.02);

    private int Frame(double time) => Math.Clamp((int)Math.Round(time / hop), 0, Math.Max(0, curve.Length - 1));
}
