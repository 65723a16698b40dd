using System.Collections.Immutable;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Proposing;

/// <summary>A bar on the axis of beats.</summary>
/// <param name="FirstBeat">Index into <see cref="BeatAxis.Times"/>.</param>
internal sealed record ProposedBar(int FirstBeat, Meter Meter)
{
    public int EndBeat => FirstBeat + Meter.BeatsPerBar;
}

/// <summary>
/// Heard beats counted into bars. A pick-up gets a whole bar, with silent beats before the first heard one; a last bar that breaks off
/// is filled up too. Those added beats carry on at the pace of their neighbours.
/// </summary>
/// <param name="Times">Seconds of each beat, and last of all the end of the last bar; the first may lie before the recording.</param>
/// <param name="Confidences">One a beat; null for a beat that was added.</param>
internal sealed record BeatAxis(ImmutableArray<double> Times, ImmutableArray<double?> Confidences, ImmutableArray<ProposedBar> Bars)
{
    /// <summary>Beats whose spacing gives the pace at either end.</summary>
    private const int BeatsOfPace = 8;

    public static BeatAxis Of(ImmutableArray<HeardBeat> beats, Meter meter, double tempo)
    {
        if (beats.IsEmpty)
            return new([], [], []);
        var sizes = BarSizes(beats, meter, out var added);
        var bars = ImmutableArray.CreateBuilder<ProposedBar>();
        foreach (var size in sizes)
            bars.Add(new(bars.Count == 0 ? 0 : bars[^1].EndBeat, meter.OfBeats(size)));
        var heard = beats.Select(b => b.Time.Value).ToList();
        var (before, after) = (Pace(heard.Take(BeatsOfPace), tempo), Pace(heard.TakeLast(BeatsOfPace), tempo));
        var tail = bars[^1].EndBeat - added - heard.Count;
        return new(
            [
                .. Enumerable.Range(0, added).Select(i => heard[0] - before * (added - i)), .. heard,
                .. Enumerable.Range(1, tail + 1).Select(i => heard[^1] + after * i),
            ],
            [.. Enumerable.Repeat<double?>(null, added), .. beats.Select(b => (double?)b.Confidence), .. Enumerable.Repeat<double?>(null, tail + 1)],
            bars.ToImmutable());
    }

    /// <summary>The place of a time on the line, in beats from the first bar's start; outside the line the nearest end.</summary>
    public double PlaceOf(double time)
    {
        var next = Times.BinarySearch(time);
        if (next >= 0)
            return next;
        next = Math.Clamp(~next, 1, Times.Length - 1);
        return Math.Clamp(next - 1 + (time - Times[next - 1]) / (Times[next] - Times[next - 1]), 0, Times.Length - 1);
    }

    /// <summary>The time of a place on the line, in seconds.</summary>
    public double TimeOf(double place)
    {
        var beat = Math.Clamp((int)Math.Floor(place), 0, Times.Length - 2);
        return Times[beat] + (place - beat) * (Times[beat + 1] - Times[beat]);
    }

    /// <summary>How long the beat at a place is, in seconds.</summary>
    public double BeatLengthAt(double place)
    {
        var beat = Math.Clamp((int)Math.Floor(place), 0, Times.Length - 2);
        return Times[beat + 1] - Times[beat];
    }

    /// <summary>Beats in each bar, from downbeat to downbeat.</summary>
    private static List<int> BarSizes(ImmutableArray<HeardBeat> beats, Meter meter, out int added)
    {
        var usual = meter.BeatsPerBar;
        var downbeats = Enumerable.Range(0, beats.Length).Where(i => beats[i].PositionInBar == 1).DefaultIfEmpty(0).ToList();
        var pickUp = downbeats[0] % usual;
        added = pickUp == 0 ? 0 : usual - pickUp;
        var sizes = Enumerable.Repeat(usual, (downbeats[0] + added) / usual).ToList();
        for (var i = 0; i + 1 < downbeats.Count; i++)
            AddBars(sizes, downbeats[i + 1] - downbeats[i], usual, meter.IsCompound);
        var last = beats.Length - downbeats[^1];
        sizes.AddRange(Enumerable.Repeat(usual, (last + usual - 1) / usual));
        return sizes;
    }

    /// <summary>
    /// Beats between two downbeats: one bar, an odd one if need be; where downbeats were missed, usual bars and an odd one at the end.
    /// A compound bar of one beat has no meter of its own, so that beat lengthens the bar before.
    /// </summary>
    private static void AddBars(List<int> sizes, int beats, int usual, bool isCompound)
    {
        while (beats >= 2 * usual)
        {
            sizes.Add(usual);
            beats -= usual;
        }
        if (isCompound && beats == 1 && sizes.Count > 0)
            sizes[^1]++;
        else
            sizes.Add(beats);
    }

    /// <summary>The median beat length.</summary>
    private static double Pace(IEnumerable<double> times, double tempo)
    {
        var list = times.ToList();
        var gaps = list.Zip(list.Skip(1), (a, b) => b - a).Order().ToList();
        return gaps.Count == 0 ? 60 / tempo : gaps[gaps.Count / 2];
    }
}
