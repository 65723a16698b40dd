using System.Collections.Immutable;
using System.Diagnostics;
using Harkbook.Listening;
using Harkbook.Listening.Estimators.Tunings;
using Harkbook.Units;

namespace Harkbook.Training.Fretting;

/// <summary>How often tuning and capo come first, and how sure the estimator was when it was right.</summary>
internal static class TuningTrial
{
    public static void Run(int count, double length, Func<int, double, MadePiece> make, double habit, bool print)
    {
        var pieces = Enumerable.Range(0, count).Select(i => make(i, length)).ToArray();
        var (top1, top3, sameStrings) = (0, 0, 0);
        var byTuning = new SortedDictionary<string, (int Right, int All)>();
        var sure = new (int Right, int All)[11];
        var watch = Stopwatch.StartNew();
        for (var i = 0; i < count; i++)
        {
            var piece = pieces[i];
            var (heard, _) = Mishearing.Of(piece.Notes, new Random(i), i % 2 == 0 ? 0.4 : 1);
            var chords = piece.Chords.Select(c => new HeardChord(Seconds.FromSeconds(c.Start), Seconds.FromSeconds(c.End), new(new Candidate<Music.Theory.Chord>(c.Chord, 0.8)))).ToImmutableArray();
            var found = new TuningEstimator(new() { TuningHabit = habit }).Estimate(heard, chords, piece.Key);
            var right = IsRight(found.Candidates[0].Value, piece);
            top1 += right ? 1 : 0;
            top3 += found.Candidates.Take(3).Any(c => IsRight(c.Value, piece)) ? 1 : 0;
            sameStrings += Open(found.Best).SequenceEqual(piece.Tuning.Strings.Select(s => s.Midi + piece.Capo.Fret)) ? 1 : 0;
            byTuning[piece.Name] = (byTuning.GetValueOrDefault(piece.Name).Right + (right ? 1 : 0), byTuning.GetValueOrDefault(piece.Name).All + 1);
            var bin = (int)(found.Confidence * 10);
            sure[bin] = (sure[bin].Right + (right ? 1 : 0), sure[bin].All + 1);
            if (print && !right)
                Console.WriteLine($"{piece.Name} capo {piece.Capo} ({piece.Style}, {piece.Key}): " + string.Join("; ", found.Candidates.Take(3).Select(c => $"{c.Value.Name ?? c.Value.Tuning.ToString()} {c.Value.Capo} {c.Confidence:0.00}")) + $"\n     open {string.Join(' ', Open(new(piece.Tuning, piece.Capo, null)))}; heard {string.Join(' ', heard.GroupBy(n => n.Midi).OrderBy(g => g.Key).Select(g => $"{g.Key}x{g.Count()}"))}\n     {string.Join("  ", piece.Chords.Select(c => $"{c.Chord} {c.Shape}").Distinct())}");
        }
        Console.WriteLine($"first {(double)top1 / count:0.000}, open strings right {(double)sameStrings / count:0.000}, among three {(double)top3 / count:0.000}; {watch.Elapsed.TotalSeconds / count:0.00} s each");
        Console.WriteLine(string.Join(", ", byTuning.Select(b => $"{b.Key} {b.Value.Right}/{b.Value.All}")));
        Console.WriteLine("sure: " + string.Join(" ", sure.Select((s, i) => $"{i / 10.0:0.0}:{(s.All == 0 ? 0 : (double)s.Right / s.All):0.00}({s.All})")));
    }

    private static IEnumerable<int> Open(HeardTuning guitar) => guitar.Tuning.Strings.Select(s => s.Midi + guitar.Capo.Fret);

    private static bool IsRight(HeardTuning guitar, MadePiece piece) => guitar.Capo == piece.Capo && Open(guitar).SequenceEqual(piece.Tuning.Strings.Select(s => s.Midi + piece.Capo.Fret));
}
