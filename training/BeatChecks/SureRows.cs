using System.Globalization;
using Harkbook.Listening.Estimators.Beats;
using Harkbook.Listening.Evidence;

namespace Harkbook.Training.BeatChecks;

/// <summary>One line a beat: the piece, whether the beat is right, and the reasons that <see cref="BeatSureness"/> weighs.</summary>
internal static class SureRows
{
    public static void Write(HeardPiece piece, string folder, TextWriter output)
    {
        if (piece.Truth.Length < 4)
            return;
        foreach (var row in new BeatEstimator().Decode(piece.Evidence, piece.Onsets, piece.Span, [], default).Rows)
        {
            var reasons = BeatSureness.Reasons(row, piece.Evidence);
            for (var k = 0; k < reasons.Length; k++)
            {
                var time = row.Beats[k].Frame / PulseEvidence.FrameRate;
                if (time < ScoreTable.From || time > piece.Truth[^1].Time + 0.1)
                    continue;
                var right = piece.Truth.Any(t => Math.Abs(t.Time - time) <= 0.07);
                output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{folder}/{piece.Name.Replace(',', ' ')},{(right ? 1 : 0)},")
                    + string.Join(',', reasons[k].Select(r => r.ToString("0.####", CultureInfo.InvariantCulture))));
            }
        }
    }
}
