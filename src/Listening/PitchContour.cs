using System.Collections.Immutable;
using Harkbook.Units;

namespace Harkbook.Listening;

/// <summary>A line's pitch over time. Frame f covers the time f·<see cref="Hop"/> ± half a hop.</summary>
/// <param name="Cents">Cents above the recording's own A4 (which may lie below 0); 0 where nothing sounds. One value a frame.</param>
/// <param name="Confidence">0–1 that the line sounds with this pitch; 0 where nothing sounds. One value a frame.</param>
public sealed record PitchContour(Seconds Hop, ImmutableArray<float> Cents, ImmutableArray<float> Confidence)
{
    public static PitchContour Silent { get; } = new(Seconds.FromSeconds(0.01), [], []);

    public int Frames => Cents.Length;

    public bool IsSounding(int frame) => Confidence[frame] > 0;

    /// <summary>The pitch in Hz where the line sounds; null elsewhere.</summary>
    public Hertz? PitchAt(int frame, Hertz a4) => IsSounding(frame) ? a4.Raised(Units.Cents.FromCents(Cents[frame])) : null;

    public bool Equals(PitchContour? other) =>
        other is not null && Hop == other.Hop && Cents.AsSpan().SequenceEqual(other.Cents.AsSpan()) && Confidence.AsSpan()
            .SequenceEqual(other.Confidence.AsSpan());

    public override int GetHashCode() => HashCode.Combine(Hop, Frames);
}
