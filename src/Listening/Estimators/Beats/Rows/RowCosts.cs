namespace Harkbook.Listening.Estimators.Beats.Rows;

/// <summary>What a row of beats pays for not running on evenly.</summary>
/// <param name="Frame">For each frame by which an interval differs from the one before: intervals are whole numbers of frames and the music's are not.</param>
/// <param name="Tempo">For a change of the interval by a factor of e, beyond one frame and 4%.</param>
/// <param name="Bar">For a bar that is cut short, or a change of meter.</param>
internal readonly record struct RowCosts(double Frame, double Tempo, double Bar)
{
    /// <param name="before">In frames; 0 where there was none.</param>
    public double Change(int before, int after)
    {
        if (before == 0 || after == 0)
            return 0;
        var apart = Math.Abs(before - after);
        return Frame * apart + Tempo * Bend(before, after);
    }

    public RowCosts Times(double factor) => new(Frame * factor, Tempo * factor, Bar * factor);

    /// <summary>Whether the beat jumps between two intervals, rather than bending.</summary>
    public static bool IsJump(int before, int after) => before > 0 && after > 0 && Bend(before, after) > 0.16;

    /// <summary>By how much the interval changes, in logarithms, beyond one frame and what players bend a beat by.</summary>
    public static double Bend(int before, int after)
    {
        var (less, more) = before < after ? (before, after) : (after, before);
        return Math.Max(0, Math.Log((double)more / less) - Math.Max(1.0 / less, Free));
    }

    private const double Free = 0.04;
}
