namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>How sure it is that anything but the guitar sounds.</summary>
internal static class LinePresence
{
    private static readonly LineModel.OfPresence Model = LineModel.Shipped.Presence;

    /// <summary>An invented line is worse than a missed one, so doubt counts for the guitar.</summary>
    /// <param name="frames">The recording's length.</param>
    public static double Of(List<LineStretch> stretches, int frames)
    {
        var covered = Covered(stretches);
        var (share, seconds) = ((double)covered / Math.Max(1, frames), covered * LineEstimator.Hop.Value);
        return seconds < Model.Shortest ? Model.Least
            : LogOdds.Chance(Model.Sure * (Sureness(stretches) - Model.Enough) + Model.Share * Math.Log(share / Model.UsualShare) + Model.Offset);
    }

    /// <summary>Frames in which something sounds.</summary>
    /// <param name="stretches">By first frame.</param>
    public static int Covered(List<LineStretch> stretches)
    {
        var (frames, to) = (0, 0);
        foreach (var s in stretches)
        {
            frames += Math.Max(0, s.End - Math.Max(to, s.First));
            to = Math.Max(to, s.End);
        }
        return frames;
    }

    /// <summary>The mean chance, long stretches counting more.</summary>
    private static double Sureness(List<LineStretch> stretches) =>
        stretches.Count == 0 ? 0 : stretches.Sum(s => s.Chance * s.Length) / (double)stretches.Sum(s => s.Length);
}
