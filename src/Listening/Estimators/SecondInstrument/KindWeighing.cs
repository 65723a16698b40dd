using System.Globalization;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>Whether there is a second instrument and which, from all strands of a recording.</summary>
internal static class KindWeighing
{
    /// <summary>Strands of one breath are alike, so each counts as a part of an independent witness only.</summary>
    private const double Independence = 0.08;

    private const double Doubt = 1.2;

    /// <summary>How many double notes other instruments' strands seem to have, and how much more speaks for a harmonica.</summary>
    private const double FewDoubles = 0.08, Doubling = 20, MostOfDoubles = 3;

    /// <summary>How often each kind is met with a guitar, in the order of <see cref="StrandWeigher.Kinds"/>: our judgement.</summary>
    private static readonly double[] Usual = [0.4, 0.4, 0.12, 0.08];

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

    /// <summary>An invented line is worse than a missed one, so doubt counts for the guitar.</summary>
    private static double Present(double share, double seconds, double sure) =>
        seconds < 0.5 ? 0.02 : 1 / (1 + Math.Exp(Doubt - 14 * (sure - 0.85) - 1.2 * Math.Log(share / 0.1)));

    private static double[] Kinds(List<WeighedStrand> line)
    {
        var logs = Enumerable.Range(0, StrandWeigher.Kinds.Length)
            .Select(k => Math.Log(Usual[k]) + Independence * line.Sum(s => s.Chance * Math.Sqrt(s.Strand.Length / 16.0) * s.LogKinds[k])).ToArray();
        logs[0] += Math.Clamp(Doubling * (DoubleNotes(line) - FewDoubles), 0, MostOfDoubles);
        var top = logs.Max();
        var total = logs.Sum(l => Math.Exp(l - top));
        return [.. logs.Select(l => Math.Exp(l - top) / total)];
    }

    /// <summary>The share of strands that start with another a second to a sixth away and last with it: only a harmonica has many.</summary>
    private static double DoubleNotes(List<WeighedStrand> line) =>
        line.Count == 0 ? 0 : line.Count(s => line.Any(o => Math.Abs(o.Strand.First - s.Strand.First) <= 5
            && Math.Abs(o.Strand.MedianMidi - s.Strand.MedianMidi) is > 1.5f and < 9.5f && o.Overlap(s) > 0.6 * s.Strand.Length)) / (double)line.Count;
}
