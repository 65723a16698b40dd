using Harkbook.Listening;
using Harkbook.Listening.Estimators.Fretting;
using Harkbook.Listening.Evaluation;
using Harkbook.Listening.Interchange;

namespace Harkbook.Training.Fretting;

/// <summary>How many of the notes found get their true string and fret where the tuning is given.</summary>
internal static class StringTrial
{
    public static void Run(int count, Func<int, (MadePiece Piece, Hearing Heard)> hear, bool print)
    {
        var byStyle = new SortedDictionary<string, (int Right, int All)>();
        var sure = new (int Right, int All)[11];
        for (var i = 0; i < count; i++)
        {
            var (piece, heard) = hear(i);
            var notes = new FrettingEstimator().Estimate(heard.Notes, new(piece.Tuning, piece.Capo, piece.Name));
            var match = NoteScores.Match(
                [.. piece.Notes.Select(n => new ScoredNote(n.Onset, n.End, n.Midi, n.StringIndex))],
                [.. notes.Select(n => new ScoredNote(n.Onset.Value, n.End.Value, n.Midi))]);
            for (var n = 0; n < match.Length; n++)
            {
                if (match[n] < 0)
                    continue;
                var place = notes[match[n]].Place;
                var hit = place?.StringIndex == piece.Notes[n].StringIndex ? 1 : 0;
                foreach (var style in new[] { piece.Style.Split(',')[0], "all" })
                    byStyle[style] = (byStyle.GetValueOrDefault(style).Right + hit, byStyle.GetValueOrDefault(style).All + 1);
                if (place is not null)
                    sure[(int)(place.Confidence * 10)] = (sure[(int)(place.Confidence * 10)].Right + hit, sure[(int)(place.Confidence * 10)].All + 1);
                if (print && hit == 0)
                    Console.WriteLine($"{i} {piece.Name} capo {piece.Capo} {piece.Style} {piece.Notes[n].Onset:0.00} midi {piece.Notes[n].Midi} true {piece.Notes[n].StringIndex}:{piece.Notes[n].Fret} got {place?.StringIndex}:{place?.Fret}, shape {piece.Chords.LastOrDefault(c => c.Start <= piece.Notes[n].Onset + 0.03)?.Shape}");
            }
        }
        foreach (var (name, (right, all)) in byStyle)
            Console.WriteLine($"  {name,-24} {(double)right / all:0.000} of {all}");
        Console.WriteLine("  sure: " + string.Join(" ", sure.Select((s, i) => $"{i / 10.0:0.0}:{(s.All == 0 ? 0 : (double)s.Right / s.All):0.00}({s.All})")));
    }
}
