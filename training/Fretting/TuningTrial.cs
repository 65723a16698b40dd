using Harkbook.Listening;
using Harkbook.Listening.Estimators.Tunings;

namespace Harkbook.Training.Fretting;

/// <summary>How often tuning and capo come first, what is taken for what, and how sure the estimator was when it was right.</summary>
internal static class TuningTrial
{
    public static void Run(int count, Func<int, (MadePiece Piece, Hearing Heard)> hear, double habit, bool print)
    {
        var (first, sounding, three, soundingThree) = (0, 0, 0, 0);
        var causes = new SortedDictionary<string, int>();
        var sure = new (int Right, int All)[11];
        var (shown, shownSounding) = (0, 0);
        var time = TimeSpan.Zero;
        for (var i = 0; i < count; i++)
        {
            var (piece, heard) = hear(i);
            var watch = System.Diagnostics.Stopwatch.StartNew();
            var found = new TuningEstimator(new() { TuningHabit = habit, CapoHabit = habit }).Estimate(heard.Notes, heard.Keys[0].Key.Best);
            time += watch.Elapsed;
            var cause = Cause(found.Best, piece);
            causes[cause] = causes.GetValueOrDefault(cause) + 1;
            first += cause == "right" ? 1 : 0;
            sounding += cause is "right" or "sounds alike" ? 1 : 0;
            var open = Enumerable.Range(0, 6).All(s => piece.Notes.Count(n => n.StringIndex == s && n.Fret == 0) >= 0.02 * piece.Notes.Count);
            (shown, shownSounding) = (shown + (open ? 1 : 0), shownSounding + (open && (cause is "right" or "sounds alike") ? 1 : 0));
            three += found.Candidates.Take(3).Any(c => Cause(c.Value, piece) == "right") ? 1 : 0;
            soundingThree += found.Candidates.Take(3).Any(c => Cause(c.Value, piece) is "right" or "sounds alike") ? 1 : 0;
            var bin = (int)(found.Confidence * 10);
            sure[bin] = (sure[bin].Right + (cause == "right" ? 1 : 0), sure[bin].All + 1);
            if (print && cause != "right")
                Console.WriteLine($"{(open ? "shown " : "")}{i} {piece.Name} capo {piece.Capo} ({piece.Style}, {piece.Key}; heard {heard.Keys[0].Key.Best}): {cause}: " + string.Join("; ", found.Candidates.Take(3).Select(c => $"{c.Value.Name ?? c.Value.Tuning.ToString()} {c.Value.Capo} {c.Confidence:0.00}")) + $"\n     open {string.Join(' ', Open(piece))}; heard {string.Join(' ', heard.Notes.GroupBy(n => n.Midi).OrderBy(g => g.Key).Select(g => $"{g.Key}x{g.Count()}"))}\n     {string.Join("  ", piece.Chords.Select(c => $"{c.Chord} {c.Shape}").Distinct())}");
        }
        Console.WriteLine($"first {(double)first / count:0.000}, open strings right {(double)sounding / count:0.000}; among three {(double)three / count:0.000}, {(double)soundingThree / count:0.000}; {time.TotalSeconds / count:0.00} s each");
        Console.WriteLine($"of {shown} pieces in which every string sounds open in a fiftieth of the notes: open strings right {(double)shownSounding / Math.Max(1, shown):0.000}");
        Console.WriteLine(string.Join(", ", causes.Select(c => $"{c.Key} {c.Value}")));
        Console.WriteLine("sure: " + string.Join(" ", sure.Select((s, i) => $"{i / 10.0:0.0}:{(s.All == 0 ? 0 : (double)s.Right / s.All):0.00}({s.All})")));
    }

    private static int[] Open(MadePiece piece) => [.. piece.Tuning.Strings.Select(s => s.Midi + piece.Capo.Fret)];

    private static string Cause(HeardTuning guitar, MadePiece piece)
    {
        var (found, truth) = (guitar.Tuning.Strings.Select(s => s.Midi + guitar.Capo.Fret).ToArray(), Open(piece));
        var apart = found.Zip(truth).Count(p => p.First != p.Second);
        return apart == 0 ? (guitar.Capo == piece.Capo ? "right" : "sounds alike")
            : apart == 1 ? "one string"
            : found.Zip(truth).Select(p => p.First - p.Second).Distinct().Count() == 1 ? "same steps elsewhere"
            : $"{apart} strings";
    }
}
