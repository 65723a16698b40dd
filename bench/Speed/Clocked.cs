namespace Harkbook.Bench.Speed;

/// <summary>
/// Times work by the processor time that this process spends on it, all threads together: other work on the machine hardly
/// changes that, as it does the wall clock.
/// </summary>
internal static class Clocked
{
    /// <summary>Seconds of processor time spent so far.</summary>
    public static double Now => Environment.CpuUsage.TotalTime.TotalSeconds;

    /// <summary>The median time in seconds of each of several kinds of work, run in turn so that all meet the same load; a first round isn't counted.</summary>
    public static double[] Medians(int rounds, params Func<double>[] works)
    {
        foreach (var work in works)
            work();
        var times = works.Select(_ => new double[rounds]).ToArray();
        for (var round = 0; round < rounds; round++)
        {
            for (var w = 0; w < works.Length; w++)
                times[w][round] = works[w]();
        }
        return [.. times.Select(Median)];
    }

    public static double Time(Action work)
    {
        var start = Now;
        work();
        return Now - start;
    }

    private static double Median(double[] times)
    {
        Array.Sort(times);
        return times[times.Length / 2];
    }
}
