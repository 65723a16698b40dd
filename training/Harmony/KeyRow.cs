using Harkbook.Listening;
using Harkbook.Listening.Estimators.Keys;
using Harkbook.Listening.Reading.Harmony;
using Harkbook.Music.Theory;

namespace Harkbook.Training.Harmony;

/// <summary>
/// What speaks for each of the 24 keys in a piece of one key, and which is true: one feature a weight of <see cref="KeyWeights"/>, and last how well
/// the best chords in the key explain the piece, in a minute.
/// </summary>
internal sealed record KeyRow(int Truth, double[][] Features)
{
    public static readonly string[] Names = ["network", "profile", "firstBass", "first", "last", "chords"];

    /// <returns>Null where the piece has not just one key.</returns>
    public static KeyRow? Of(WeighedPiece piece, HarmonyWeights weights)
    {
        if (piece.Heard.Truth.Keys.Length != 1 || !Key.TryParse(piece.Heard.Truth.Keys[0].Label, out var key))
            return null;
        var silent = weights with { Keys = Only(-1) };
        double[][] fits = [.. piece.Weighed.Fits.Select(row => Array.ConvertAll(row, f => f * weights.Chords.Evidence))];
        var words = Enumerable.Range(0, Names.Length - 1).Select(f => Totals(new KeyWords(piece.Weighed, fits, Only(f))));
        var columns = words.Append(Chords(piece, silent)).ToArray();
        return new(KeyCandidate.Of(key!).Index, [.. KeyCandidate.All.Select(k => columns.Select(c => c[k.Index]).ToArray())]);
    }

    public static KeyWeights With(KeyWeights old, double[] fitted) => old with
    {
        Network = fitted[0], Profile = fitted[1], FirstBass = fitted[2], First = fitted[3], Last = fitted[4],
    };

    private static KeyWeights Only(int feature)
    {
        var one = new double[Names.Length];
        if (feature >= 0)
            one[feature] = 1;
        return With(new(0, 0, 0, 0, 0, 12, 1, default), one);
    }

    private static double[] Totals(KeyWords words) => [.. KeyCandidate.All.Select(k => words.Scores.Sum(row => row[k.Index]))];

    private static double[] Chords(WeighedPiece piece, HarmonyWeights silent)
    {
        var model = new HarmonyModel(piece.Weighed, silent, new(piece.Weighed, Claims.None, 0));
        var minutes = piece.Weighed.Spans.Sum(s => (s.End - s.Start).Value) / 60;
        double[] scores = [.. KeyCandidate.All.Select(k => KeyStretches.Best(model, 0, piece.Weighed.Spans.Count, k.Index) / minutes)];
        return Array.ConvertAll(scores, s => s - scores.Max());
    }
}
