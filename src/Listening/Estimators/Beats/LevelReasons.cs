using System.Globalization;
using Harkbook.Listening.Estimators.Beats.Rows;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// What speaks for one tempo among those that a listener might tap: strokes a beat, how often the chord changes, what the network feels, habit.
/// </summary>
/// <param name="strokes">When something is struck, in seconds, rising.</param>
internal sealed class LevelReasons(PulseEvidence curves, IReadOnlyList<double> strokes, TempoHabits habits, double from, double to)
{
    /// <summary>A chord starts where its curve peaks over this.</summary>
    private const float Changed = 0.5f;

    private const int Apart = 10;

    private readonly int struck = strokes.Count(s => s >= from && s <= to);
    private readonly int changes = Changes(curves, (int)(from * PulseEvidence.FrameRate), (int)(to * PulseEvidence.FrameRate));

    /// <summary>One sentence, for the people who are told the tempo.</summary>
    public string Of(double tempo)
    {
        var beats = Math.Max(1, (to - from) * tempo / 60);
        var parts = new List<string>();
        if (struck > 0)
            parts.Add(string.Create(CultureInfo.InvariantCulture, $"{struck / beats:0.0} strokes a beat"));
        if (changes > 0)
            parts.Add(string.Create(CultureInfo.InvariantCulture, $"a chord every {beats / changes:0.0} beats"));
        parts.Add(string.Create(CultureInfo.InvariantCulture, $"the sound's own pulse {100 * Felt(tempo):0}%"));
        parts.Add(string.Create(CultureInfo.InvariantCulture, $"{100 * habits.Share(tempo):0}% of music is tapped about so fast"));
        return string.Join(", ", parts);
    }

    private double Felt(double tempo)
    {
        var (place, sum) = ((int)Math.Round(PulseEvidence.PlaceOf(tempo)), 0.0);
        for (var f = 0; f < curves.Frames; f++)
        {
            for (var t = Math.Max(0, place - TempoHabits.Near); t <= Math.Min(PulseEvidence.Tempi - 1, place + TempoHabits.Near); t++)
                sum += curves.Tempo[f, t];
        }
        return sum / Math.Max(1, curves.Frames);
    }

    private static int Changes(PulseEvidence curves, int from, int to)
    {
        var (count, last) = (0, -Apart);
        for (var f = Math.Max(0, from); f < Math.Min(curves.Frames, to); f++)
        {
            if (f - last < Apart || curves.Change[f] < Changed)
                continue;
            (count, last) = (count + 1, f);
        }
        return count;
    }
}
