namespace Harkbook.Training.SecondInstrument;

/// <summary>A strand's features, whether it is the second instrument's (0 or 1), and of which kind (−1 where it is the guitar's).</summary>
internal sealed record Example(float[] Features, float IsLine, int Kind, float Weight);
