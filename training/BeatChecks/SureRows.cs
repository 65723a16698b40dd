using System.Globalization;
using Harkbook.Listening;
using Harkbook.Listening.Estimators.Beats;
using Harkbook.Listening.Estimators.Beats.Rows;
using Harkbook.Listening.Evidence;

namespace Harkbook.Training.BeatChecks;

/// <summary>
/// One line a beat: the piece, whether the beat is right, and the reasons that <see cref="BeatSureness"/> weighs; then a line for the piece's tempo
/// and one for its meter, each with whether it is right and its share of the rows.
/// </summary>
internal static class SureRows
{
    public static void Write(HeardPiece piece, BeatModel model, string folder, TextWriter output)
    {
        if (piece.Truth.Length < 4)
            return;
        var read = new BeatReading(piece.Sound, piece.Notes, model).Rows(Claims.None, new(), default);
        var name = $"{folder}/{piece.Name.Replace(',', ' ')}";
        foreach (var row in read)
        {
            var reasons = BeatSureness.Reasons(row, piece.Sound.Curves);
            for (var k = 0; k < reasons.Length; k++)
            {
                var time = row.Beats[k].Frame / PulseEvidence.FrameRate;
                if (time >= ScoreTable.From && time <= piece.Truth[^1].Time + 0.1)
                    Write(output, "beat", name, piece.Truth.Any(t => Math.Abs(t.Time - time) <= 0.07), reasons[k]);
            }
        }
        var beats = read.SelectMany(r => r.Beats).ToArray();
        var gap = (piece.Truth[^1].Time - piece.Truth[0].Time) / (piece.Truth.Length - 1) * PulseEvidence.FrameRate;
        var own = (beats[^1].Frame - beats[0].Frame) / (beats.Length - 1.0);
        var share = read.Sum(r => r.Tempi[0] * r.Beats.Length) / beats.Length;
        Write(output, "tempo", name, Math.Abs(own / gap - 1) < 0.04, [Odds(share), BeatSureness.FromUsual(60 * PulseEvidence.FrameRate / own)]);
        var kinds = Enumerable.Range(0, 3).Select(k => read.Sum(r => r.Kinds[k] * r.Beats.Length) / beats.Length).ToArray();
        var usual = beats.GroupBy(b => BarModel.KindOf[b.Place]).MaxBy(g => g.Count())!.Key;
        Write(output, "meter", name, BarModel.Lengths[usual] == piece.Truth.Max(b => b.PositionInBar), [Odds(kinds[usual] / kinds.Sum())]);
    }

    private static double Odds(double share) => Math.Log((share + 1e-4) / (1 - share + 1e-4));

    private static void Write(TextWriter output, string kind, string name, bool right, double[] reasons) =>
        output.WriteLine($"{kind},{name},{(right ? 1 : 0)},{string.Join(',', reasons.Select(r => r.ToString("0.####", CultureInfo.InvariantCulture)))}");
}
