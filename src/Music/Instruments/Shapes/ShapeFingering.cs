using System.Collections.Immutable;

namespace Harkbook.Music.Instruments.Shapes;

/// <summary>One finger across two or more strings on one fret.</summary>
/// <param name="Finger">1 (index) to 4 (little).</param>
/// <param name="Fret">As the shape counts it, on the barre's low string.</param>
/// <param name="LowString">Index (0 = the low side) of the first string pressed.</param>
/// <param name="HighString">Index of the last string pressed.</param>
public sealed record Barre(int Finger, int Fret, int LowString, int HighString)
{
    public int Strings => HighString - LowString + 1;
}

/// <summary>What a fingering asks of the hand; each part is 0 or more, larger is harder. The weights are our judgement.</summary>
/// <param name="Reach">Stretching beyond a finger a fret.</param>
/// <param name="Barres">Pressing several strings with one finger; hardest near the nut.</param>
/// <param name="Fingers">Placing each finger.</param>
public readonly record struct Effort(double Reach, double Barres, double Fingers)
{
    public double Total => Reach + Barres + Fingers;
}

/// <summary>Which finger presses each string.</summary>
/// <param name="Fingers">One number a string: 1 (index) to 4 (little), 0 where none presses.</param>
/// <param name="Effort">Of fingers that a person gave; where they were searched, of the shape held the way that asks least.</param>
public sealed record ShapeFingering(ImmutableArray<int> Fingers, ImmutableArray<Barre> Barres, Effort Effort)
{
    public int FingersUsed => Fingers.Where(f => f > 0).Distinct().Count();
}

/// <summary>A fingering, or why there is none that a hand can play.</summary>
/// <param name="Fingering">Null when the shape can't be fingered; a given fingering that breaks a rule stays here with its faults.</param>
/// <param name="Faults">In players' words; empty when the shape is playable.</param>
public sealed record FingeringAnswer(ShapeFingering? Fingering, ImmutableArray<string> Faults)
{
    public bool IsPlayable => Fingering is not null && Faults.IsEmpty;
}
