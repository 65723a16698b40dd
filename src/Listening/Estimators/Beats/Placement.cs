namespace Harkbook.Listening.Estimators.Beats;

/// <summary>Where the onsets fall in one way to hear the beat: shares of beats, of halves and of quarters on which something starts.</summary>
internal sealed class Placement
{
    private readonly BeatGrid grid;
    private readonly Onsets onsets;

    public Placement(BeatGrid grid, Onsets onsets)
    {
        (this.grid, this.onsets) = (grid, onsets);
        var times = grid.Times;
        On = [.. times.Select(onsets.At)];
        Half = [.. Enumerable.Range(0, times.Length - 1).Select(k => onsets.At((times[k] + times[k + 1]) / 2))];
    }

    public bool[] On { get; }

    public bool[] Half { get; }

    public double Beats => Share(On);

    public double Halves => Share(Half);

    public double Quarters => (Filled(0.25) + Filled(0.75)) / 2;

    public double Thirds => Filled(1 / 3.0);

    public double TwoThirds => Filled(2 / 3.0);

    /// <summary>The share of halves that are played while the next beat is not: chords or notes that come early and are held over.</summary>
    public double HeldOver => Half.Where((half, k) => half && !On[k + 1]).Count() / (double)Half.Length;

    /// <summary>The share of beats that are played while the half after them is not.</summary>
    public double Held => Half.Where((half, k) => !half && On[k]).Count() / (double)Half.Length;

    /// <summary>The share of halves that are played while neither beat about them is.</summary>
    public double Alone => Half.Where((half, k) => half && !On[k] && !On[k + 1]).Count() / (double)Half.Length;

    /// <summary>1 when a time lies on a beat, −1 when it lies half way between beats.</summary>
    public double OnBeat(double time)
    {
        var (nearest, interval) = (grid.Times.MinBy(t => Math.Abs(t - time)), grid.Interval);
        return Math.Cos(2 * Math.PI * Math.Clamp((time - nearest) / interval, -0.5, 0.5));
    }

    public bool BeginsOnBeat => Math.Abs(onsets.First - grid.Times[0]) < 0.15 * grid.Interval;

    public bool EndsOnBeat => Math.Abs(onsets.Last - grid.Times[^1]) < 0.15 * grid.Interval;

    public double Starts => OnBeat(onsets.First);

    public double Ends => OnBeat(onsets.Last);

    /// <summary>How much the distance between beats changes from one to the next: the mean of the absolute natural logarithm of the ratio.</summary>
    public double Unsteadiness
    {
        get
        {
            var gaps = grid.Times.Skip(1).Zip(grid.Times, (b, a) => b - a).ToArray();
            return gaps.Skip(1).Zip(gaps, (b, a) => Math.Abs(Math.Log(b / a))).DefaultIfEmpty(0).Average();
        }
    }

    private double Filled(double fraction) =>
        Share([.. grid.Times.Skip(1).Zip(grid.Times, (next, time) => onsets.At(time + fraction * (next - time)))]);

    private static double Share(bool[] places) => places.Length == 0 ? 0 : places.Count(p => p) / (double)places.Length;
}
