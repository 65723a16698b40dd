using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// Where a person's beat contradicts the row of beats that the evidence alone would give, that row's own beats lose their credit, from the last
/// anchor that agreed to the next: the grid then moves as a whole rather than swerve to meet one point.
/// </summary>
internal static class Contradiction
{
    private const double Agreeing = 0.2;
    private const float CreditLeft = 0.1f;
    private const int Reach = 3;

    public static PulseEvidence Settle(PulseEvidence evidence, IReadOnlyList<DecodedBeat> row, IReadOnlyList<BeatAnchor> anchors)
    {
        var settled = evidence.Copy();
        if (row.Count == 0)
            return settled;
        var placed = anchors.Select(a => a.Time.Value * PulseEvidence.FrameRate).Order().Select(frame => (Frame: frame, Agrees: Agrees(row, frame))).ToList();
        foreach (var (frame, _) in placed.Where(a => !a.Agrees))
        {
            var from = placed.Where(a => a.Agrees && a.Frame < frame).Select(a => a.Frame).DefaultIfEmpty(double.NegativeInfinity).Max();
            var to = placed.Where(a => a.Agrees && a.Frame > frame).Select(a => a.Frame).DefaultIfEmpty(double.PositiveInfinity).Min();
            foreach (var beat in row.Where(b => b.Frame > from && b.Frame < to))
                Discredit(evidence, settled, beat.Frame);
        }
        return settled;
    }

    private static bool Agrees(IReadOnlyList<DecodedBeat> row, double frame)
    {
        var nearest = row.MinBy(b => Math.Abs(b.Frame - frame));
        return Math.Abs(nearest.Frame - frame) <= Agreeing * nearest.Interval;
    }

    private static void Discredit(PulseEvidence evidence, PulseEvidence settled, int frame)
    {
        for (var f = Math.Max(0, frame - Reach); f <= Math.Min(evidence.Frames - 1, frame + Reach); f++)
            (settled.Beat[f], settled.Downbeat[f]) = (CreditLeft * evidence.Beat[f], CreditLeft * evidence.Downbeat[f]);
    }
}
