using System.Globalization;
using Harkbook.Listening.Estimators.Beats;
using Harkbook.Listening.Estimators.Beats.Levels;
using Harkbook.Listening.Estimators.Beats.Rows;
using Harkbook.Listening.Evidence;

namespace Harkbook.Training.BeatChecks;

/// <summary>
/// One line a level about the true beat of each piece: folder, piece, its tempo as a multiple of the true one, its tempo, then its other traits.
/// </summary>
internal static class LevelTable
{
    public static void Write(HeardPiece piece, BeatModel model, string folder, TextWriter output)
    {
        if (piece.Truth.Length < 4)
            return;
        var tempo = 60 * (piece.Truth.Length - 1) / (piece.Truth[^1].Time - piece.Truth[0].Time);
        foreach (var level in new BeatReading(piece.Sound, piece.Notes, model).Levels(tempo, default))
        {
            var traits = level.Traits;
            double[] row = [traits.Tempo / tempo, traits.Tempo, traits.Chords, traits.LowQuarters];
            var values = string.Join(',', row.Select(v => v.ToString("0.#####", CultureInfo.InvariantCulture)));
            output.WriteLine($"{folder},{piece.Name.Replace(',', ' ')},{values}");
        }
    }
}
