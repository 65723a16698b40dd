using System.Globalization;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>Whether there is a second instrument and which, from all strands of a recording.</summary>
internal static class KindWeighing
{
    /// <summary>Strands of one breath are alike, so each counts as a part of an independent witness only.</summary>
    private const double Independence = 0.08;

    public static Ranked<SecondInstrumentKind> Of(WeighedStrand[] strands, Seconds length)
    {
        var line = LinePicker.Pick(strands, oneAtATime: false);
        var (seconds, sure) = (Covered(line), Sureness(line));
        var present = Present(seconds / Math.Max(1, length.Value), seconds, sure);
        var words = string.Create(CultureInfo.InvariantCulture, $"{seconds:0.0} s of sound that isn't plucked");
        var kinds = Kinds(line);
        return new([new(SecondInstrumentKind.None, 1 - present, words),
            .. StrandWeigher.Kinds.Select((kind, k) => new Candidate<SecondInstrumentKind>(kind, present * kinds[k], words))]);
    }

    public static double Covered(List<WeighedStrand> line)
    {
        var frames = new HashSet<int>();
        foreach (var strand in line)
            frames.UnionWith(Enumerable.Range(strand.Strand.First, strand.Strand.Length));
        return frames.Count / SecondInstrumentScan.FramesPerSecond;
    }

    /// <summary>The mean chance, long strands counting more.</summary>
    public static double Sureness(List<WeighedStrand> line) =>
        line.Count == 0 ? 0 : line.Sum(s => s.Chance * s.Strand.Length) / line.Sum(s => s.Strand.Length);

    private static double Present(double share, double seconds, double sure) =>
        seconds < 0.5 ? 0.02 : 1 / (1 + Math.Exp(-(14 * (sure - 0.85) + 1.2 * Math.Log(share / 0.1))));

    private static double[] Kinds(List<WeighedStrand> line)
    {
        var logs = Enumerable.Range(0, StrandWeigher.Kinds.Length)
            .Select(k => Independence * line.Sum(s => s.Chance * Math.Sqrt(s.Strand.Length / 16.0) * s.LogKinds[k])).ToArray();
        var top = logs.Max();
        var total = logs.Sum(l => Math.Exp(l - top));
        return [.. logs.Select(l => Math.Exp(l - top) / total)];
    }
}
