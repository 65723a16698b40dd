using Harkbook.Listening.Checking.Weighing;

namespace Harkbook.Listening.Checking.Lines;

/// <summary>What speaks for a syllable starting where it is claimed to.</summary>
/// <param name="onsets">Of the notes of the voice that was made out, rising, in seconds.</param>
/// <param name="written">All claimed syllables, rising, in seconds.</param>
internal sealed class SyllableFeatures(LineStarts voice, double[] onsets, double[] written)
{
    /// <summary>How far from its place a syllable may start, in seconds: singers are free.</summary>
    private const double Reach = 0.1;

    private const double Far = 0.4;

    private readonly float[] starts = voice.Curve();

    /// <param name="eighth">How long an eighth is there, in seconds.</param>
    public Feature[] Of(double time, double eighth)
    {
        var near = Nearest(onsets, time);
        return
        [
            new("starts", Most(starts, time - Reach, time + Reach)),
            new("note", Math.Min(Far, near) / Far),
            new("near note", near <= Reach ? 1 : 0),
            new("elsewhere", Rival(time, eighth).LogOdds),
        ];
    }

    /// <summary>The likeliest start nearby of which no other syllable is written; the time of the claim where there is none.</summary>
    public (double LogOdds, double Time) Rival(double time, double eighth)
    {
        var best = (LogOdds: LogOdds.Of(0, 0.01), Time: time);
        for (var f = voice.Frame(time - 1.3 * eighth); f <= voice.Frame(time + 1.3 * eighth) && starts.Length > 0; f++)
        {
            var (at, found) = (voice.TimeOf(f), LogOdds.Of(starts[f], 0.01));
            if (found > best.LogOdds && Math.Abs(at - time) > Reach && !written.Any(w => w != time && Math.Abs(w - at) <= Reach))
                best = (found, at);
        }
        return best;
    }

    private double Most(float[] curve, double from, double to) =>
        LogOdds.Of(curve.Length == 0 ? 0 : curve.AsSpan(voice.Frame(from), voice.Frame(to) - voice.Frame(from) + 1).ToArray().Max(), 0.01);

    private static double Nearest(double[] times, double time)
    {
        var found = Array.BinarySearch(times, time);
        var place = found < 0 ? ~found : found;
        return Math.Min(place < times.Length ? times[place] - time : double.PositiveInfinity, place > 0 ? time - times[place - 1] : double.PositiveInfinity);
    }
}
