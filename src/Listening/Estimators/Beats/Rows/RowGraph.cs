namespace Harkbook.Listening.Estimators.Beats.Rows;

/// <summary>
/// Every way that a row of beats can take through the moments: a step is a beat at one moment that came from the beat before at another (or from
/// none: the first of a row). A step leads to those that start where it ends and last about as long.
/// </summary>
internal sealed class RowGraph
{
    private readonly int[] moments;
    private readonly int[] offsets;
    private readonly int[] lows;
    private readonly int[] ends;

    /// <param name="moments">Frames, rising.</param>
    /// <param name="shortest">Of a step, in frames.</param>
    public RowGraph(int[] moments, int shortest, int longest)
    {
        this.moments = moments;
        (Shortest, Longest) = (shortest, longest);
        (offsets, lows) = (new int[moments.Length + 1], new int[moments.Length]);
        for (int m = 0, low = 0, high = 0; m < moments.Length; m++)
        {
            while (low < m && moments[low] < moments[m] - longest)
                low++;
            while (high < m && moments[high] <= moments[m] - shortest)
                high++;
            lows[m] = low;
            offsets[m + 1] = offsets[m] + Math.Max(0, high - low) + 1;
        }
        ends = new int[Steps];
        for (var m = 0; m < moments.Length; m++)
            Array.Fill(ends, m, offsets[m], offsets[m + 1] - offsets[m]);
    }

    public int Shortest { get; }

    public int Longest { get; }

    public int Moments => moments.Length;

    public int Steps => offsets[^1];

    public int Frame(int moment) => moments[moment];

    /// <summary>The moment that a step ends at.</summary>
    public int End(int step) => ends[step];

    /// <summary>The moment that a step starts at; −1 for the first beat of a row.</summary>
    public int Start(int step)
    {
        var end = ends[step];
        return step == offsets[end + 1] - 1 ? -1 : lows[end] + step - offsets[end];
    }

    /// <summary>In frames; 0 for the first beat of a row.</summary>
    public int Interval(int step) => Start(step) is >= 0 and var start ? moments[ends[step]] - moments[start] : 0;

    /// <summary>The steps that end at a moment; the last of them is the first beat of a row.</summary>
    public (int From, int To) EndingAt(int moment) => (offsets[moment], offsets[moment + 1]);

    /// <summary>The first beat of a row that starts at a moment.</summary>
    public int FirstAt(int moment) => offsets[moment + 1] - 1;

    /// <summary>The steps before this one that may lead to it, beside a row's first beat: from and to (not included).</summary>
    public (int From, int To) Before(int step)
    {
        var start = Start(step);
        if (start < 0)
            return (0, 0);
        var (interval, first) = (Interval(step), FirstAt(start));
        var reach = Reach(interval);
        // Later starts mean shorter steps.
        var low = LowerBound(lows[start], first - offsets[start], moments[start] - interval - reach);
        var high = LowerBound(lows[start], first - offsets[start], moments[start] - interval + reach + 1);
        return (offsets[start] + low - lows[start], offsets[start] + high - lows[start]);
    }

    /// <summary>The first moment at or after a frame.</summary>
    public int FirstFrom(int frame) => LowerBound(0, moments.Length, frame);

    /// <summary>The moment nearest to a frame; −1 where none lies within so many frames.</summary>
    public int Nearest(int frame, int within)
    {
        var after = FirstFrom(frame);
        var best = after < moments.Length && (after == 0 || moments[after] - frame <= frame - moments[after - 1]) ? after : after - 1;
        return best >= 0 && Math.Abs(moments[best] - frame) <= within ? best : -1;
    }

    /// <summary>How many frames the next interval may be longer or shorter.</summary>
    private static int Reach(int interval) => 2 + interval / 3;

    /// <summary>The first of so many moments from one on that lies at or after a frame.</summary>
    private int LowerBound(int from, int count, int frame)
    {
        var found = Array.BinarySearch(moments, from, count, frame);
        return found < 0 ? ~found : found;
    }
}
