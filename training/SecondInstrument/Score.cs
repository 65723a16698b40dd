using Harkbook.Listening.Estimators;
using Harkbook.Listening.Estimators.SecondInstrument;
using Harkbook.Units;

namespace Harkbook.Training.SecondInstrument;

/// <summary>How well strands are told apart: area-free counts at a threshold, weighted by length.</summary>
internal static class StrandScore
{
    public static int Run(IReadOnlyList<FontPlayer> fonts, int pieces, int seed, double length, string weights)
    {
        using var reader = File.OpenText(weights);
        var network = SmallNetwork.Read(reader, StrandFeatures.Count);
        var (hit, miss, falsely, soloFalse, soloTime) = (0.0, 0.0, 0.0, 0.0, 0.0);
        for (var i = 0; i < pieces; i++)
        {
            var duet = DuetStore.Get(i, seed, fonts[i / 2 % fonts.Count], length);
            var strands = SecondInstrumentScan.Strands(duet.Sound, Hertz.A440, null, default);
            var features = new StrandFeatures(strands);
            var (h, m, f) = (0.0, 0.0, 0.0);
            for (var k = 0; k < strands.Count; k++)
            {
                var origin = Labels.Of(strands[k], duet);
                var says = network.Weigh(features.Of(k))[0] > 0;
                h += says && origin == Origin.Line ? strands[k].Length : 0;
                m += !says && origin == Origin.Line ? strands[k].Length : 0;
                f += says && origin == Origin.Guitar ? strands[k].Length : 0;
            }
            Console.WriteLine($"{duet.Name} {duet.Kind,-10} found {h / (h + m + 1e-9):0.00} false/line {f / (h + m + 1e-9):0.00} false seconds {f / SecondInstrumentScan.FramesPerSecond:0.0}");
            (hit, miss, falsely) = (hit + h, miss + m, falsely + f);
            if (duet.Kind == "none") (soloFalse, soloTime) = (soloFalse + f / SecondInstrumentScan.FramesPerSecond, soloTime + length);
        }
        Console.WriteLine($"all: recall {hit / (hit + miss):0.000} precision {hit / (hit + falsely):0.000}; on solo guitar {soloFalse / soloTime:0.000} s a second");
        return 0;
    }
}
