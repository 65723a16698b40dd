using System.Collections.Immutable;
using Harkbook.Music.Instruments;
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
    public Finding Weigh(Shape shape, Tuning tuning, Capo capo, Chord chord, ImmutableDictionary<int, double> sounding, Place where, string claim)
    {
        var support = Support(shape, tuning, capo, sounding);
        var verdict = options.Judge(support);
        if (verdict == Verdict.Supported)
            return new(ClaimKind.Shape, verdict, support, where, claim);
        var other = Better(chord, tuning, capo, sounding, support);
        return new(ClaimKind.Shape, verdict, support, where, claim, Missing(shape, tuning, capo, sounding), other?.ToString());
    }

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

    /// <summary>The playable shape that fits what sounds best; null unless clearly better than the claimed one.</summary>
    private static Shape? Better(Chord chord, Tuning tuning, Capo capo, ImmutableDictionary<int, double> sounding, double support) =>
        VoicingSearch.Find(chord, tuning, capo, VoicingOptions.Usual with { Results = 40 }, null)
            .Select(v => (v.Shape, Support: Support(v.Shape, tuning, capo, sounding) - 0.01 * v.Cost.Total))
            .Where(v => v.Support > support + 0.1)
            .OrderByDescending(v => v.Support)
            .Select(v => v.Shape.WithFingers())
            .FirstOrDefault();

    private static string? Missing(Shape shape, Tuning tuning, Capo capo, ImmutableDictionary<int, double> sounding)
    {
        var missing = shape.Pitches(tuning, capo).Where(p => sounding.GetValueOrDefault(p.Midi) < 0.15).Select(p => p.ToString()).ToArray();
        return missing.Length == 0 ? null : $"{string.Join(", ", missing)} not heard";
    }
}
