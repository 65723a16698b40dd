using System.Globalization;
using Harkbook.Listening.Estimators.Beats;
using Harkbook.Listening.Estimators.Beats.Levels;
using Harkbook.Listening.Estimators.Beats.Rows;
using Harkbook.Listening.Evidence;

namespace Harkbook.Training.BeatChecks;

/// <summary>One line a level of each piece: folder, piece, the level's tempo as a multiple of the true one, and its features.</summary>
internal static class LevelTable
{
    public static void Write(HeardPiece piece, BeatModel model, string folder, TextWriter output)
    {
        if (piece.Truth.Length < 4)
            return;
        var gap = (piece.Truth[^1].Time - piece.Truth[0].Time) / (piece.Truth.Length - 1) * PulseEvidence.FrameRate;
        foreach (var level in new BeatReading(piece.Sound, piece.Notes, model).Levels(default).Where(l => l.Features.Length > 0))
        {
            var beats = level.Row.Beats;
            var own = (beats[^1].Frame - beats[0].Frame) / (beats.Length - 1.0);
            double[] row = [gap / own, BeatRow.Ratios[level.Ratio], 60 * PulseEvidence.FrameRate / own, .. level.Features];
            var values = string.Join(',', row.Select(v => v.ToString("0.#####", CultureInfo.InvariantCulture)));
            output.WriteLine($"{folder},{piece.Name.Replace(',', ' ')},{values}");
        }
    }
}
