using Harkbook.Audio.Synthesis;
using Harkbook.Music.Songs;
using Harkbook.Sounding;
using Harkbook.Units;

namespace Harkbook.Demo;

/// <summary>
/// A tempo that breathes: in each four bars it starts easy, moves on and eases again, drifts a little by chance, and the
/// last bars slow down.
/// </summary>
internal sealed class PerformedTimes : IBarTimes
{
    private const int PhraseBars = 4;
    private readonly double[] barStarts;
    private readonly double[] beatTimes;

    /// <param name="secondsPerBeat">The tempo at rest, as played.</param>
    public PerformedTimes(Song song, DemoPerformance performance, double secondsPerBeat)
    {
        var bars = song.Bars.ToArray();
        barStarts = new double[bars.Length + 1];
        for (var i = 0; i < bars.Length; i++)
            barStarts[i + 1] = barStarts[i] + bars[i].Meter.BarLength.Value;
        beatTimes = Beats(song, performance, secondsPerBeat);
    }

    public Seconds At(int bar, Beats inBar) => AtBeat(barStarts[bar - 1] + inBar.Value);

    private Seconds AtBeat(double beat)
    {
        var whole = Math.Clamp((int)Math.Floor(beat), 0, beatTimes.Length - 2);
        return Seconds.FromSeconds(beatTimes[whole] + (beat - whole) * (beatTimes[whole + 1] - beatTimes[whole]));
    }

    private double[] Beats(Song song, DemoPerformance performance, double secondsPerBeat)
    {
        var noise = new Noise(performance.Seed * 7 + 1);
        var times = new List<double> { performance.LeadInSeconds };
        var drift = 0.0;
        foreach (var place in song.Sections.SelectMany(PhrasePlaces))
        {
            drift = 0.85 * drift + 0.0035 * noise.NextNormal();
            var ease = performance.Rubato * Math.Cos(2 * Math.PI * place);
            var closing = Math.Max(0, times.Count - barStarts[^1] + 4) * 0.035;
            times.Add(times[^1] + secondsPerBeat * (1 + ease + drift + closing));
        }
        times.Add(2 * times[^1] - times[^2]);
        return [.. times];
    }

    /// <summary>For each beat of a section, how far into its phrase it lies, 0 to 1.</summary>
    private static IEnumerable<double> PhrasePlaces(Section section)
    {
        for (var i = 0; i < section.Bars.Length; i++)
        {
            var length = Math.Min(PhraseBars, section.Bars.Length - i / PhraseBars * PhraseBars);
            var beats = section.Bars[i].Meter.BeatsPerBar;
            for (var beat = 0; beat < beats; beat++)
                yield return (i % PhraseBars + (beat + 0.5) / beats) / length;
        }
    }
}
