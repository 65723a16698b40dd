using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Listening;
using Harkbook.Listening.Estimators.SecondInstrument;
using Harkbook.Listening.Evaluation;
using Harkbook.Units;

namespace Harkbook.Training.SecondInstrument;

/// <summary>Scores the whole step on made-up pieces, kind by kind.</summary>
internal static class PieceScore
{
    /// <param name="pieces">With their names.</param>
    /// <param name="cells">What the network says of each.</param>
    public static int Run(IEnumerable<(string Name, Piece Piece)> pieces, CellStore cells)
    {
        var sheets = new List<(string Kinds, Measured Told, ImmutableArray<(LineKind Kind, ImmutableArray<Measured> Scores)> Lines)>();
        foreach (var (name, piece) in pieces)
        {
            var heard = LineEstimator.Of(cells.Get(name, piece.Sound), PieceTruth.Keys(piece));
            var truth = PieceTruth.Of(piece);
            var each = truth.Lines!.Value;
            ImmutableArray<(LineKind Kind, ImmutableArray<Measured> Scores)> lines =
                [.. each.Select(l => (l.Kind!.Value, LineScores.Of(LineScores.Meant(heard, each, l), Hertz.A440, l).ToImmutableArray()))];
            sheets.Add((piece.Kinds, LineScores.Of(heard, Hertz.A440, truth).First(), lines));
            Console.WriteLine($"{name} {piece.Kinds,-16} heard {Heard(heard)}  {string.Join("; ", lines.Select(l => $"{l.Kind} {Shortly(l.Scores)}"))}");
        }
        foreach (var group in sheets.GroupBy(s => s.Kinds))
        {
            Console.WriteLine($"{group.Key} ({group.Count()}): just these {Number(group.Average(s => s.Told.Value))}");
            foreach (var line in group.SelectMany(s => s.Lines).GroupBy(l => l.Kind))
                Console.WriteLine($"  {line.Key}: " + Told(Evaluator.Mean(line.Select(l => l.Scores))));
        }
        return 0;
    }

    public static string Heard(HeardLines heard) => heard.Found.IsEmpty
        ? $"none {Number(heard.Alone)}"
        : string.Join(", ", heard.Found.Select(l => $"{l.Kind.Best} {Number(l.Kind.Confidence)}{Harp(l)}"));

    public static string Told(IEnumerable<Measured> scores) => string.Join(", ", scores.Select(m => $"{m.Measure} {Number(m.Value)}"));

    private static string Harp(HeardLine line) => line.Harp is { } harp ? $" in {harp.Best.Key} {Number(harp.Confidence)}" : "";

    private static string Shortly(IEnumerable<Measured> scores) => string.Join(' ', scores.Select(m => $"{Short(m.Measure)} {Number(m.Value)}"));

    private static string Number(double value) => value.ToString("0.000", CultureInfo.InvariantCulture);

    private static string Short(string measure) => string.Concat(measure.Split(' ').Select(w => w[..Math.Min(4, w.Length)]));
}
