using System.Collections.Immutable;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Instruments.Voicings;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Checking;

/// <summary>
/// Weighs a claimed shape: do its strings' pitches sound, and does anything sound that it doesn't explain? A pitch an
/// octave, a twelfth or two octaves above a sounding one may be its overtone and isn't held against the shape.
/// </summary>
public sealed class ShapeWeigher(CheckOptions options)
{
    private static readonly int[] Overtones = [12, 19, 24, 28, 31];

    /// <param name="sounding">How strongly each MIDI pitch sounds over the span (<see cref="PitchStrengths"/>).</param>
    public Finding Weigh(Shape shape, Tuning tuning, Capo capo, ImmutableDictionary<int, double> sounding, Place where, string claim)
    {
        var support = Support(shape, tuning, capo, sounding);
        var verdict = options.Judge(support);
        return new(ClaimKind.Shape, verdict, support, where, claim, verdict == Verdict.Supported ? null : Missing(shape, tuning, capo, sounding));
    }

    /// <summary>
    /// The playable shape, with its fingers, that fits all uses of a claimed one best. Null where the uses together support the claimed one, or
    /// none is clearly better over all of them; and none that a use doesn't support which supports the claimed one.
    /// </summary>
    /// <param name="uses">What sounds over each.</param>
    public Shape? Better(Shape shape, Tuning tuning, Capo capo, Chord chord, ImmutableArray<ImmutableDictionary<int, double>> uses)
    {
        var own = Supports(shape);
        return uses.IsEmpty || options.Judge(own.Average()) == Verdict.Supported ? null
            : VoicingSearch.Find(chord, tuning, capo, new() { Hand = Hand.On(tuning), Results = 40 })
                .Select(v => (Voicing: v, Supports: Supports(v.Shape)))
                .Where(v => !own.Zip(v.Supports).Any(s => IsSupported(s.First) && !IsSupported(s.Second)))
                .Select(v => (v.Voicing, Support: v.Supports.Average() - 0.01 * v.Voicing.Cost.Total))
                .Where(v => v.Support > own.Average() + 0.1)
                .OrderByDescending(v => v.Support)
                .FirstOrDefault().Voicing is { } better ? Fingered(better.Shape) : null;

        double[] Supports(Shape of) => [.. uses.Select(sounding => Support(of, tuning, capo, sounding))];
        bool IsSupported(double support) => options.Judge(support) == Verdict.Supported;
    }

    /// <summary>A shape of open strings has no fingers to give.</summary>
    private static Shape Fingered(Shape shape) => shape.FirstFret is null ? shape.WithoutFingers() : shape;

    private static double Support(Shape shape, Tuning tuning, Capo capo, ImmutableDictionary<int, double> sounding)
    {
        var claimed = shape.Pitches(tuning, capo).Select(p => p.Midi).Distinct().ToArray();
        if (claimed.Length == 0)
            return 0;
        var heard = claimed.Average(m => Math.Min(1, sounding.GetValueOrDefault(m) / 0.5));
        var unexplained = sounding
            .Where(s => s.Value > 0.3 && !claimed.Contains(s.Key) && !claimed.Any(m => Overtones.Contains(s.Key - m)))
            .Sum(s => s.Value);
        return Math.Clamp(heard - 0.3 * unexplained / claimed.Length, 0, 1);
    }

    private static string? Missing(Shape shape, Tuning tuning, Capo capo, ImmutableDictionary<int, double> sounding)
    {
        var missing = shape.Pitches(tuning, capo).Where(p => sounding.GetValueOrDefault(p.Midi) < 0.15).Select(p => p.ToString()).Distinct().ToArray();
        return missing.Length == 0 ? null : $"{string.Join(", ", missing)} not heard";
    }
}
