namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>A strand with how likely it is the second instrument's (0–1) and the logarithm of how likely each kind is, if so.</summary>
internal sealed record WeighedStrand(Strand Strand, double Chance, double[] LogKinds, float Decibels)
{
    public int Overlap(WeighedStrand other) => Math.Min(Strand.End, other.Strand.End) - Math.Max(Strand.First, other.Strand.First);
}
