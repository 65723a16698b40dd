using System.Collections.Immutable;
using Harkbook.Music.Instruments.Shapes;

namespace Harkbook.Music.Instruments.Voicings;

/// <summary>One reason why a shape ranks where it does: 0 is no drawback.</summary>
/// <param name="Name">In players' words, as in "barre" or "movement".</param>
public readonly record struct CostPart(string Name, double Value);

/// <summary>
/// What a voicing costs. The first group is the hand's, the second the ear's. The scale and weights are our judgement;
/// as a guide, 1 is about what a small barre costs.
/// </summary>
public readonly record struct VoicingCost
{
    /// <summary>Stretching, placing fingers, barres.</summary>
    public Effort Effort { get; init; }

    /// <summary>Muted strings between sounding ones, which a strum must skip.</summary>
    public double Gaps { get; init; }

    /// <summary>Distance of the hand from the nut.</summary>
    public double Position { get; init; }

    /// <summary>Open strings ringing far below the hand.</summary>
    public double OpenStrings { get; init; }

    /// <summary>Moving from the shape before.</summary>
    public double Movement { get; init; }

    /// <summary>A lowest note other than the chord's bass.</summary>
    public double Bass { get; init; }

    /// <summary>Notes of the chord that don't sound.</summary>
    public double Missing { get; init; }

    /// <summary>Thirds, sevenths and added notes that sound more than once; thirds low down.</summary>
    public double Doubling { get; init; }

    /// <summary>Strings that don't sound.</summary>
    public double Thinness { get; init; }

    /// <summary>A shape that isn't one of those that all learn, where such are known for the chord in the tuning.</summary>
    public double Unusual { get; init; }

    public double Total => Effort.Total + Gaps + Position + OpenStrings + Movement + Bass + Missing + Doubling + Thinness + Unusual;

    /// <summary>The parts that cost something, the dearest first.</summary>
    public ImmutableArray<CostPart> Parts =>
    [
        .. new CostPart[]
        {
            new("reach", Effort.Reach), new("barre", Effort.Barres), new("fingers", Effort.Fingers), new("muted inside", Gaps),
            new("up the neck", Position), new("open strings apart", OpenStrings), new("movement", Movement), new("bass", Bass),
            new("missing notes", Missing), new("doubled notes", Doubling), new("few strings", Thinness),
            new("seldom taught", Unusual),
        }.Where(p => p.Value > 0).OrderByDescending(p => p.Value),
    ];
}

/// <summary>A playable way to sound a chord.</summary>
/// <param name="Shape">Frets with the fingering's fingers.</param>
public sealed record Voicing(Shape Shape, ShapeFingering Fingering, VoicingCost Cost);
