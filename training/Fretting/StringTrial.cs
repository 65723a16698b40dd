using System.Diagnostics;
using Harkbook.Listening.Estimators.Fretting;

namespace Harkbook.Training.Fretting;

/// <summary>How many notes get their true string and fret where the tuning is given.</summary>
internal static class StringTrial
{
    public static void Run(int count, Func<int, double, MadePiece> make)
    {
        var byStyle = new SortedDictionary<string, (int Right, int All)>();
        var sure = new (int Right, int All)[11];
        var watch = new Stopwatch();
        foreach (var badness in new[] { 0.0, 1.0 })
        {
            var (right, all) = (0, 0);
            for (var i = 0; i < count; i++)
            {
                var piece = make(i, 40);
                var (heard, source) = Mishearing.Of(piece.Notes, new Random(i), badness);
                watch.Start();
                var path = Fretter.Find(heard, new(piece.Tuning, piece.Capo));
                watch.Stop();
                for (var n = 0; n < heard.Length; n++)
                {
                    if (source[n] < 0)
                        continue;
                    var hit = path.Strings[n] == piece.Notes[source[n]].StringIndex ? 1 : 0;
                    (right, all) = (right + hit, all + 1);
                    if (Environment.GetEnvironmentVariable("SHOW") is not null && hit == 0 && badness == 0)
                        Console.WriteLine($"{piece.Name} capo {piece.Capo} {piece.Style} {heard[n].Onset.Value:0.00} midi {heard[n].Midi} true {piece.Notes[source[n]].StringIndex}:{piece.Notes[source[n]].Fret} got {path.Strings[n]}:{path.Frets[n]} chord {piece.Chords.LastOrDefault(c => c.Start <= heard[n].Onset.Value + 0.03)?.Chord} {piece.Chords.LastOrDefault(c => c.Start <= heard[n].Onset.Value + 0.03)?.Shape}");
                    var name = $"{badness} {piece.Style.Split(',')[0]}";
                    byStyle[name] = (byStyle.GetValueOrDefault(name).Right + hit, byStyle.GetValueOrDefault(name).All + 1);
                    if (badness > 0 && path.Strings[n] >= 0)
                        sure[(int)(path.Confidence[n] * 10)] = (sure[(int)(path.Confidence[n] * 10)].Right + hit, sure[(int)(path.Confidence[n] * 10)].All + 1);
                }
            }
            Console.WriteLine($"badness {badness}: {(double)right / all:0.000} of {all}");
        }
        foreach (var (name, (right, all)) in byStyle)
            Console.WriteLine($"  {name,-24} {(double)right / all:0.000} of {all}");
        Console.WriteLine("  sure: " + string.Join(" ", sure.Select((s, i) => $"{i / 10.0:0.0}:{(s.All == 0 ? 0 : (double)s.Right / s.All):0.00}({s.All})")));
        Console.WriteLine($"  {watch.Elapsed.TotalSeconds:0.0} s for {2 * count * 40} s of music");
    }
}
