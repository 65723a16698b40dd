using System.Globalization;
using Harkbook.Listening.Estimators.Beats;

namespace Harkbook.Training.BeatChecks;

/// <summary>One line a stretch of true beats: the piece, then the accents on the beats over those between, as <see cref="OffBeatCheck"/> weighs them.</summary>
internal static class HalfRows
{
    private const int Longest = 32;
    private const int Shortest = 16;

    public static void Write(HeardPiece piece, string folder, TextWriter output)
    {
        foreach (var stretch in piece.Truth.Select(b => b.Time).Chunk(Longest).Where(c => c.Length >= Shortest))
        {
            var ratios = OffBeatCheck.Ratios([.. stretch], piece.Notes);
            output.WriteLine($"{folder}/{piece.Name.Replace(',', ' ')}," + string.Join(',', ratios.Select(r => r.ToString("0.####", CultureInfo.InvariantCulture))));
        }
    }
}
