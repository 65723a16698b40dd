using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// A second look at bars once the beats are known: a small network, fitted on composed music by training/BeatChecks, weighs for each beat how well
/// its clues (<see cref="BarClues"/>) fit each place in bars of two, three and four beats, and the row of places that fits best is found, in
/// which a bar may be cut short at a cost. So what little each beat says adds up over the whole piece.
/// </summary>
internal static class BarCheck
{
    private const float Cut = 6;
    private const float Forced = 60;
    private const int Fewest = 8;

    private static readonly Lazy<SmallNetwork> Network = new(() => SmallNetwork.Shipped("Estimators.Beats.bar-weights.txt", BarClues.Count));

    /// <param name="beats">Rising.</param>
    /// <returns>The same beats, each at the place that fits best.</returns>
    public static List<DecodedBeat> Apply(List<DecodedBeat> beats, IPulseBands bands, PulseEvidence evidence, IReadOnlyList<BeatAnchor> anchors, CancellationToken cancellation)
    {
        if (beats.Count < Fewest)
            return beats;
        var scores = BarClues.Of(bands, evidence, [.. beats.Select(b => b.Frame)], cancellation).Select(clues => Network.Value.Weigh(clues)).ToArray();
        foreach (var anchor in anchors)
            Hold(scores, beats, anchor);
        return [.. beats.Zip(BestRow(scores), (b, place) => b with { Place = place })];
    }

    /// <summary>The regular row of places of the largest sum, cut where that is worth it.</summary>
    internal static int[] BestRow(float[][] scores)
    {
        var best = scores[0];
        var from = new int[scores.Length][];
        for (var k = 1; k < scores.Length; k++)
        {
            var (before, any) = (best, Array.IndexOf(best, best.Max()));
            from[k] = [.. Enumerable.Range(0, BarModel.Places).Select(p => BarModel.IsDownbeat(p) && before[any] - Cut > before[BarModel.Before(p)] ? any : BarModel.Before(p))];
            best = [.. Enumerable.Range(0, BarModel.Places).Select(p => scores[k][p] + before[from[k][p]] - (from[k][p] == BarModel.Before(p) ? 0 : Cut))];
        }
        var row = new int[scores.Length];
        row[^1] = Array.IndexOf(best, best.Max());
        for (var k = row.Length - 1; k > 0; k--)
            row[k - 1] = from[k][row[k]];
        return row;
    }

    /// <summary>A person's word on a beat's position outweighs all clues.</summary>
    private static void Hold(float[][] scores, List<DecodedBeat> beats, BeatAnchor anchor)
    {
        var frame = (int)Math.Round(anchor.Time.Value * PulseEvidence.FrameRate);
        if (anchor.PositionInBar is not { } position || beats.FindIndex(b => b.Frame == frame) is not (>= 0 and var beat))
            return;
        for (var p = 0; p < BarModel.Places; p++)
            scores[beat][p] += BarModel.PositionOf(p) == position ? Forced : -Forced;
    }
}
