namespace Harkbook.Listening.Evidence;

/// <summary>What bears on the beat: what the beat network says, and the bands that it looked at.</summary>
/// <param name="Span">The frames between the first and the last clear sound; null for silence.</param>
internal sealed record PulseSound(PulseEvidence Curves, KeptBands Bands, SoundingSpan? Span)
{
    /// <summary>No sound.</summary>
    public static PulseSound None { get; } = new(new(0), KeptBands.None, null);
}
