using Harkbook.Listening.Estimators.SecondInstrument;
using Harkbook.Units;

namespace Harkbook.Training.SecondInstrument;

/// <summary>Why harmonica notes are missed: not found at all, found at another time, or given another hole.</summary>
internal static class Misses
{
    public static int Run(IReadOnlyList<FontPlayer> fonts, int pieces, int seed, double length)
    {
        var (all, right, wrongHole, mistimed, weighedAway, unseen) = (0, 0, 0, 0, 0, 0);
        var offs = new List<double>();
        for (var i = 0; i < pieces; i++)
        {
            if (i % 8 >= 3)
                continue;
            var duet = DuetStore.Get(i, seed, fonts[i / 2 % fonts.Count], length);
            var strands = SecondInstrumentScan.Strands(duet.Sound, Hertz.A440, null, default);
            var weighed = StrandWeigher.Shipped.Weigh(strands, default);
            var heard = new SecondInstrumentEstimator().Estimate(duet.Sound, Hertz.A440, DuetTruth.Keys(duet), null, default);
            foreach (var note in duet.Line)
            {
                all++;
                var near = heard.Notes.Where(n => n.Midi == note.Midi && n.Onset.Value < note.End && n.End.Value > note.Onset).MinBy(n => Math.Abs(n.Onset.Value - note.Onset));
                if (near is not null)
                    offs.Add(near.Onset.Value - note.Onset);
                var text = near is not null && Math.Abs(near.Onset.Value - note.Onset) <= 0.05 ? near.Holes?.Best == note.Hole ? "right" : "hole" : near is not null ? "time" : "none";
                if (text == "right") right++;
                else if (text == "hole") wrongHole++;
                else if (text == "time") mistimed++;
                else
                {
                    var there = weighed.Where(w => Math.Abs(w.Strand.MedianMidi - note.Midi) < 0.7 && w.Strand.First / SecondInstrumentScan.FramesPerSecond < note.End - 0.05 && w.Strand.End / SecondInstrumentScan.FramesPerSecond > note.Onset + 0.05).ToArray();
                    if (there.Length == 0) unseen++; else weighedAway++;
                    text += there.Length == 0 ? " unseen" : $" best chance {there.Max(w => w.Chance):0.00}: strands " + string.Join("; ", weighed.Where(w => w.Chance > 0.3 && w.Strand.First / SecondInstrumentScan.FramesPerSecond < note.End && w.Strand.End / SecondInstrumentScan.FramesPerSecond > note.Onset).Select(w => $"{w.Strand.MedianMidi:0.0} {w.Strand.First / SecondInstrumentScan.FramesPerSecond:0.00}-{w.Strand.End / SecondInstrumentScan.FramesPerSecond:0.00} {w.Chance:0.00} {w.Decibels:0}dB")) + " notes " + string.Join(" ", heard.Notes.Where(n => n.Onset.Value < note.End && n.End.Value > note.Onset).Select(n => $"{n.Midi} {n.Onset.Value:0.00}"));
                }
                if (text != "right")
                    Console.WriteLine($"{duet.Name} {note.Hole} {note.Midi} {note.Onset:0.00}-{note.End:0.00} v{note.Voice} {text} {(near is null ? "" : $"{near.Onset.Value - note.Onset:+0.000;-0.000} {near.Holes?.Best}")}");
            }
        }
        offs.Sort();
        Console.WriteLine($"all {all} right {right} hole {wrongHole} time {mistimed} weighed away {weighedAway} unseen {unseen}; offsets 10% {offs[offs.Count / 10]:0.000} median {offs[offs.Count / 2]:0.000} 90% {offs[offs.Count * 9 / 10]:0.000}");
        return 0;
    }
}
