using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Checking.Strokes;

/// <summary>A stroke that is claimed, with the pitches of the shape that it falls on, from the low string up; none where no shape is known.</summary>
internal readonly record struct StrokeClaim(double Time, Stroke Stroke, int[] Pitches);

/// <summary>What speaks for something being struck where a stroke is claimed, and for the hand going the way that is claimed.</summary>
/// <param name="other">What starts besides the strokes.</param>
internal sealed class StrokeFeatures(HeardStarts starts, StrikeCurve curve, NoiseCurve noise, WrittenNotes other)
{
    /// <summary>How far from its place a stroke may fall, in seconds.</summary>
    public const double Reach = 0.06;

    /// <summary>From this on a string is taken to start, in log-odds.</summary>
    private const double Starts = -2;

    private const int Upper = 4;

    /// <summary>For strings being struck at all.</summary>
    public Feature[] Struck(StrokeClaim claim)
    {
        var strike = curve.Strongest(claim.Time - Reach, claim.Time + Reach).Log;
        var own = Surest(claim);
        return
        [
            new("strike", strike),
            new("strongest", own[0]),
            new("second", own[1]),
            new("third", own[2]),
            new("noise", Noise(claim)),
            new("others", Math.Min(3, other.Count(claim.Time, Reach))),
        ];
    }

    /// <summary>For damped strings being struck: noise without pitches.</summary>
    public Feature[] Muted(StrokeClaim claim)
    {
        var own = Surest(claim);
        return
        [
            new("noise", Noise(claim)),
            new("strongest", own[0]),
            new("third", own[2]),
            new("others", Math.Min(3, other.Count(claim.Time, Reach))),
        ];
    }

    /// <summary>For the hand going down, where the stroke goes down; for up, where it goes up.</summary>
    public Feature[] Direction(StrokeClaim claim)
    {
        var way = claim.Stroke == Stroke.Down ? 1 : -1;
        var (slope, strings) = Slope(claim);
        return
        [
            new("order", way * Math.Clamp(slope, -1, 1) * Math.Sqrt(strings)),
            new("low strings", way * Low(claim)),
            new("up", way < 0 ? 1 : 0),
        ];
    }

    private double Noise(StrokeClaim claim) => noise.Strongest(claim.Time - Reach, claim.Time + Reach);

    /// <summary>The surest three starts of the shape's pitches; of all pitches where no shape is known.</summary>
    private double[] Surest(StrokeClaim claim)
    {
        var pitches = claim.Pitches.Length > 0 ? claim.Pitches : [.. Enumerable.Range(starts.Notes.LowestMidi, starts.Notes.Pitches)];
        return [.. pitches.Select(m => starts.At(m, claim.Time, Reach)).OrderDescending().Concat(Enumerable.Repeat(HeardStarts.Never, 3)).Take(3)];
    }

    /// <summary>How many hundredths of a second later each string speaks than the one below it, by a line through all that start; and how many do.</summary>
    private (double Slope, int Strings) Slope(StrokeClaim claim)
    {
        var points = Starting(claim).Select((s, i) => (String: (double)i, s.Time, s.LogOdds)).Where(p => p.LogOdds > Starts).ToArray();
        if (points.Length < 2)
            return (0, 0);
        var (s, t) = (points.Average(p => p.String), points.Average(p => p.Time));
        var spread = points.Sum(p => (p.String - s) * (p.String - s));
        return (100 * points.Sum(p => (p.String - s) * (p.Time - t)) / spread, points.Length);
    }

    /// <summary>How much surer the two lowest strings start than the others: a stroke up often misses them.</summary>
    private double Low(StrokeClaim claim)
    {
        var own = Starting(claim).Select(s => s.LogOdds).ToArray();
        return own.Length < Upper ? 0 : (own.Take(2).Average() - own.Skip(2).Average()) / 4;
    }

    private (double LogOdds, double Time)[] Starting(StrokeClaim claim) => [.. claim.Pitches.Select(m => Refined(m, claim.Time))];

    /// <summary>The strongest start of a pitch, its time by the parabola through the peak.</summary>
    private (double LogOdds, double Time) Refined(int midi, double time)
    {
        var found = starts.Strongest(midi, time - Reach, time + Reach);
        var (notes, hop, pitch) = (starts.Notes, starts.Notes.Hop.Value, midi - starts.Notes.LowestMidi);
        var frame = (int)Math.Round(found.Time / hop);
        if (pitch < 0 || pitch >= notes.Pitches || frame < 1 || frame >= notes.Frames - 1)
            return found;
        var (a, b, c) = (notes.Onset[frame - 1, pitch], notes.Onset[frame, pitch], notes.Onset[frame + 1, pitch]);
        var curve = a - 2 * b + c;
        return curve < 0 ? (found.LogOdds, hop * (frame + Math.Clamp((a - c) / (2 * curve), -0.5, 0.5))) : found;
    }
}
