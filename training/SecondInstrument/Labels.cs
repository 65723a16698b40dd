using Harkbook.Listening.Estimators.SecondInstrument;

namespace Harkbook.Training.SecondInstrument;

/// <summary>What a strand truly is.</summary>
internal enum Origin
{
    Guitar,
    Line,
    Unclear,
}

/// <summary>Tells from what was played whose a strand is.</summary>
internal static class Labels
{
    public static Origin Of(Strand strand, Duet duet)
    {
        var (line, guitar) = (0, 0);
        for (var f = 0; f < strand.Length; f++)
        {
            var (time, midi) = ((strand.First + f) / SecondInstrumentScan.FramesPerSecond, strand.Tones[f].Midi);
            line += duet.Line.Any(n => time >= n.Onset - 0.02 && time <= n.End + 0.06 && Math.Abs(midi - n.Midi - n.Scoop / 100 * Math.Exp(-(time - n.Onset) / 0.05)) < 0.7) ? 1 : 0;
            guitar += duet.Guitar.Any(n => time >= n.Onset - 0.02 && time <= n.End + 0.1 && Math.Abs(midi - n.Midi) < 0.5) ? 1 : 0;
        }
        var (lineShare, guitarShare) = (line / (double)strand.Length, guitar / (double)strand.Length);
        return lineShare > 0.6 ? guitarShare > 0.5 ? Origin.Unclear : Origin.Line
            : lineShare > 0.25 ? Origin.Unclear
            : Origin.Guitar;
    }
}
