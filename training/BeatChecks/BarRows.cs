using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Listening.Estimators.Beats;
using Harkbook.Listening.Evidence;
using Harkbook.Listening.Interchange;

namespace Harkbook.Training.BeatChecks;

/// <summary>One line a beat: the piece, the true place in its bar (−1 where unknown), the place and the clues of the program.</summary>
internal static class BarRows
{
    private const double Near = 0.07;

    public static void Write(HeardPiece piece, string folder, TextWriter output)
    {
        var beats = new BeatEstimator().Decode(piece.Evidence, piece.Onsets, piece.Span, [], default).Rows.SelectMany(r => r.Beats).ToList();
        if (beats.Count < 2)
            return;
        var clues = BarClues.Of(piece.Bands, piece.Evidence, [.. beats.Select(b => b.Frame)], default);
        for (var k = 0; k < beats.Count; k++)
        {
            var time = beats[k].Frame / PulseEvidence.FrameRate;
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{folder}/{piece.Name.Replace(',', ' ')},{time:0.000},{True(piece.Truth, time)},{beats[k].Place},")
                + string.Join(',', clues[k].Select(c => c.ToString("0.####", CultureInfo.InvariantCulture))));
        }
    }

    /// <summary>The place by <see cref="BarModel"/>, from the bar's true length and the beat's position in it.</summary>
    private static int True(ImmutableArray<AnnotatedBeat> truth, double time)
    {
        var at = Enumerable.Range(0, truth.Length).Where(i => Math.Abs(truth[i].Time - time) <= Near).DefaultIfEmpty(-1).MinBy(i => i < 0 ? 9 : Math.Abs(truth[i].Time - time));
        if (at < 0 || truth[at].PositionInBar is not { } position)
            return -1;
        int end = at + 1;
        while (end < truth.Length && truth[end].PositionInBar > 1)
            end++;
        var last = truth[end - 1].PositionInBar ?? 0;
        var kind = Array.IndexOf(BarModel.Lengths, end < truth.Length ? last : Math.Max(last, truth.Max(b => b.PositionInBar ?? 0)));
        return kind < 0 ? -1 : BarModel.Downbeats[kind] + position - 1;
    }
}
