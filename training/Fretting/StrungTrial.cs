using Harkbook.Listening;
using Harkbook.Listening.Estimators.Fretting;
using Harkbook.Listening.Estimators.Stiffness;
using Harkbook.Listening.Estimators.Tunings;
using Harkbook.Listening.Evaluation;
using Harkbook.Listening.Interchange;

namespace Harkbook.Training.Fretting;

/// <summary>Tunings, capos and strings on heard pieces, with and without what stiffness says, by how many notes sound, register and length.</summary>
internal static class StrungTrial
{
    public static void Run(int count, Func<int, (MadePiece Piece, HeardStrings Heard)> hear, double[] onStrings, bool print)
    {
        var made = Enumerable.Range(0, count).Select(hear).ToArray();
        foreach (var isStiff in new[] { false, true })
            Tunings(made, isStiff, print);
        foreach (var weight in onStrings)
            Strings(made, weight, print);
    }

    private static void Tunings((MadePiece Piece, HeardStrings Heard)[] made, bool isStiff, bool print)
    {
        var (first, alike, three, sure, sureRight, log) = (0, 0, 0, 0, 0, 0.0);
        foreach (var (piece, heard) in made)
        {
            var stiff = isStiff ? StiffNotes.Of(heard.Stiffness, heard.Notes) : StiffNotes.None;
            var found = new TuningEstimator(new() { TuningHabit = 0, CapoHabit = 0 })
                .Estimate(heard.Notes, heard.Key, null, null, stiff, default);
            var right = found.Best.Tuning == piece.Tuning && found.Best.Capo == piece.Capo;
            first += right ? 1 : 0;
            alike += Alike(found.Best, piece) ? 1 : 0;
            three += found.Candidates.Take(3).Any(c => Alike(c.Value, piece)) ? 1 : 0;
            log += Math.Log(Math.Max(1e-4, found.Candidates.Where(c => c.Value.Tuning == piece.Tuning && c.Value.Capo == piece.Capo).Sum(c => c.Confidence)));
            (sure, sureRight) = (sure + (found.Confidence >= 0.9 ? 1 : 0), sureRight + (found.Confidence >= 0.9 && right ? 1 : 0));
            if (print && !right)
                Console.WriteLine($"{piece.Name} capo {piece.Capo} ({piece.Style}): " + string.Join("; ", found.Candidates.Take(3).Select(c => $"{c.Value.Name ?? c.Value.Tuning.ToString()} {c.Value.Capo} {c.Confidence:0.00}")));
        }
        double n = made.Length;
        Console.WriteLine($"tunings, {(isStiff ? "with" : "without")} stiffness: first {first / n:0.000}, alike {alike / n:0.000}, alike among three {three / n:0.000}, log {log / n:0.000}, at least 90% sure right {sureRight}/{sure}");
    }

    private static bool Alike(HeardTuning guitar, MadePiece piece) =>
        guitar.Tuning.Strings.Select(s => s.Midi + guitar.Capo.Fret).SequenceEqual(piece.Tuning.Strings.Select(s => s.Midi + piece.Capo.Fret));

    private static void Strings((MadePiece Piece, HeardStrings Heard)[] made, double weight, bool print)
    {
        var rows = new SortedDictionary<string, (int Right, int All)>();
        var sure = new (int Right, int All)[11];
        foreach (var (piece, heard) in made)
        {
            var stiff = weight > 0 ? StiffNotes.Of(heard.Stiffness, heard.Notes) : StiffNotes.None;
            var notes = new FrettingEstimator(FretWeights.Usual with { Stiffness = weight }).Estimate(heard.Notes, new(piece.Tuning, piece.Capo, piece.Name), stiff, default);
            var match = NoteScores.Match(
                [.. piece.Notes.Select(n => new ScoredNote(n.Onset, n.End, n.Midi, n.StringIndex))], [.. notes.Select(n => new ScoredNote(n.Onset.Value, n.End.Value, n.Midi))]);
            for (var n = 0; n < match.Length; n++)
            {
                if (match[n] < 0)
                    continue;
                var (note, place) = (piece.Notes[n], notes[match[n]].Place);
                var hit = place?.StringIndex == note.StringIndex;
                var others = piece.Notes.Count(o => o != note && o.Onset < note.Onset + 0.3 && o.End > note.Onset + 0.03);
                foreach (var row in new[] { "all", $"others {(others <= 1 ? "0-1" : others <= 3 ? "2-3" : others <= 5 ? "4-5" : "6+")}", $"register {(note.Midi < 50 ? "1 below D3" : note.Midi < 57 ? "2 to G#3" : note.Midi < 64 ? "3 to D#4" : "4 from E4")}",
                    $"length {(note.End - note.Onset < 0.2 ? "1 under 0.2" : note.End - note.Onset < 0.5 ? "2 to 0.5" : "3 longer")}", piece.Style.Split(',')[0] })
                    rows[row] = (rows.GetValueOrDefault(row).Right + (hit ? 1 : 0), rows.GetValueOrDefault(row).All + 1);
                if (place is not null)
                    sure[(int)(place.Confidence * 10)] = (sure[(int)(place.Confidence * 10)].Right + (hit ? 1 : 0), sure[(int)(place.Confidence * 10)].All + 1);
            }
        }
        Console.WriteLine($"strings, stiffness x {weight}: " + string.Join("; ", rows.Where(r => print || r.Key == "all").Select(r => $"{r.Key} {(double)r.Value.Right / r.Value.All:0.000} of {r.Value.All}"))
            + "; sure " + string.Join(" ", sure.Select((s, i) => s.All == 0 ? "" : $"{i / 10.0:0.0}:{(double)s.Right / s.All:0.00}({s.All})")));
    }
}
