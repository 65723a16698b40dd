namespace Harkbook.Listening.Evidence;

/// <summary>A matrix of frames × pitches of levels, 0 to 1, in 255 even steps.</summary>
public sealed class LevelMatrix
{
    private readonly byte[] steps;

    /// <summary>All 0.</summary>
    public LevelMatrix(int frames, int pitches) : this(frames, pitches, new byte[frames * pitches])
    {
    }

    private LevelMatrix(int frames, int pitches, byte[] steps) => (Frames, Pitches, this.steps) = (frames, pitches, steps);

    public int Frames { get; }

    public int Pitches { get; }

    /// <summary>As they are kept, row by row.</summary>
    internal ReadOnlyMemory<byte> Steps => steps;

    /// <summary>Set: rounded to the nearest step; what lies outside 0 to 1 becomes the nearer of them.</summary>
    public float this[int frame, int pitch]
    {
        get => steps[frame * Pitches + pitch] / 255f;
        set => steps[frame * Pitches + pitch] = (byte)(Math.Clamp(value, 0, 1) * 255 + 0.5f);
    }

    /// <param name="steps">Of <see cref="Steps"/>.</param>
    internal static LevelMatrix OfSteps(int frames, int pitches, byte[] steps) =>
        steps.Length == frames * pitches ? new(frames, pitches, steps)
            : throw new FormatException($"{steps.Length} values stand where {frames} × {pitches} should.");
}
