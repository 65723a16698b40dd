using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Layers;

/// <summary>A pure tone: its frequency, and its amplitude with 1 for a note's first partial.</summary>
public readonly record struct PureTone(Hertz Frequency, double Amplitude);

/// <summary>
/// Sensory roughness: the curve of R. Plomp and W. J. M. Levelt, "Tonal consonance and critical bandwidth", JASA 38, 1965, as
/// W. A. Sethares parametrised it, "Local consonance and the relationship between timbre and scale", JASA 94(3), 1993, in the later
/// form of his programs: each pair of partials counts by the softer one. No unit; a pair of equal pure tones gives 0.9 at most.
/// </summary>
public static class Roughness
{
    private const double Scale = 5, Rise = -3.51, Fall = -5.75, Peak = 0.24, Slope = 0.0207, Offset = 18.96;

    /// <summary>How many partials a note is taken to have, and how much softer each is than the one before.</summary>
    public const int PartialsOfANote = 6;

    /// <inheritdoc cref="PartialsOfANote"/>
    public const double Falloff = 0.88;

    /// <summary>The sum over all pairs of tones.</summary>
    public static double Of(IReadOnlyList<PureTone> tones)
    {
        var sum = 0.0;
        for (var i = 0; i < tones.Count; i++)
        {
            for (var j = i + 1; j < tones.Count; j++)
                sum += Of(tones[i], tones[j]);
        }
        return sum;
    }

    /// <summary>Of notes that sound together, each of six harmonic partials whose amplitudes fall by 0.88, all notes equally loud.</summary>
    public static double Of(IEnumerable<Pitch> pitches, Hertz a4) => Of([.. pitches.SelectMany(p => Partials(p, a4))]);

    /// <summary>
    /// Of two layers that sound together, and what they add by doing so: all of it less each one's own. A pitch counts once, as the
    /// lower layer's where both sound it: doubling makes it louder, not rougher.
    /// </summary>
    public static (double Together, double Between) OfLayers(IEnumerable<LayerNote> below, IEnumerable<LayerNote> above, Hertz a4)
    {
        Pitch[] low = [.. below.Select(n => n.Pitch).DistinctBy(p => p.Midi)];
        Pitch[] high = [.. above.Select(n => n.Pitch).DistinctBy(p => p.Midi).ExceptBy(low.Select(p => p.Midi), p => p.Midi)];
        var together = Of([.. low, .. high], a4);
        return (together, together - Of(low, a4) - Of(high, a4));
    }

    public static double Of(PureTone a, PureTone b)
    {
        var (low, high) = a.Frequency.Value <= b.Frequency.Value ? (a.Frequency.Value, b.Frequency.Value) : (b.Frequency.Value, a.Frequency.Value);
        var distance = Peak / (Slope * low + Offset) * (high - low);
        return Scale * Math.Min(a.Amplitude, b.Amplitude) * (Math.Exp(Rise * distance) - Math.Exp(Fall * distance));
    }

    private static IEnumerable<PureTone> Partials(Pitch pitch, Hertz a4) =>
        Enumerable.Range(1, PartialsOfANote).Select(k => new PureTone(Hertz.FromHertz(pitch.Frequency(a4).Value * k), Math.Pow(Falloff, k - 1)));
}
