namespace Harkbook.Listening.Checking;

/// <summary>How often claims of one kind are taken to be wrong in a transcription.</summary>
/// <param name="Claims">How many of them there are.</param>
/// <param name="Errors">How many are expected to be wrong.</param>
public readonly record struct ErrorRate(int Claims, double Errors)
{
    /// <summary>The probability that one of them is wrong, before anything is heard of it.</summary>
    public double Share => Errors / Claims;
}
