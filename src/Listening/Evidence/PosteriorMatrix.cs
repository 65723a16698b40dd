namespace Harkbook.Listening.Evidence;

/// <summary>
/// A matrix of frames × pitches of posteriors, a byte each: 0 and 1 exactly, between them 254 steps even in log-odds from −8 to 8, so that what
/// is nearly sure and what is nearly ruled out keep their difference. Of an hour 61 pitches take 19 MB.
/// </summary>
public sealed class PosteriorMatrix
{
    private const int Certain = byte.MaxValue;
    private const double Most = 8;

    private static readonly float[] Values = [.. Enumerable.Range(0, Certain + 1).Select(step => step switch
    {
        0 => 0f,
        Certain => 1f,
        _ => (float)LogOdds.Chance(Most * (2 * (step - 1) / (Certain - 2.0) - 1)),
    })];

    private readonly byte[] steps;

    /// <summary>All 0.</summary>
    public PosteriorMatrix(int frames, int pitches) : this(frames, pitches, new byte[frames * pitches])
    {
    }

    private PosteriorMatrix(int frames, int pitches, byte[] steps) => (Frames, Pitches, this.steps) = (frames, pitches, steps);

    public int Frames { get; }

    public int Pitches { get; }

    /// <summary>As they are kept, row by row.</summary>
    internal ReadOnlyMemory<byte> Steps => steps;

    /// <summary>Set: rounded to the nearest step; what lies outside 0 to 1 becomes the nearer of them.</summary>
    public float this[int frame, int pitch]
    {
        get => Values[steps[frame * Pitches + pitch]];
        set => steps[frame * Pitches + pitch] = StepOf(value);
    }

    /// <param name="values">Frames × pitches.</param>
    public static PosteriorMatrix Of(float[,] values)
    {
        var matrix = new PosteriorMatrix(values.GetLength(0), values.GetLength(1));
        for (var f = 0; f < matrix.Frames; f++)
        {
            for (var p = 0; p < matrix.Pitches; p++)
                matrix[f, p] = values[f, p];
        }
        return matrix;
    }

    /// <param name="steps">Of <see cref="Steps"/>.</param>
    internal static PosteriorMatrix OfSteps(int frames, int pitches, byte[] steps) =>
        steps.Length == frames * pitches ? new(frames, pitches, steps)
            : throw new FormatException($"{steps.Length} values stand where {frames} × {pitches} should.");

    /// <summary>Fills a frame.</summary>
    /// <param name="values">One a pitch.</param>
    public void Fill(int frame, ReadOnlySpan<float> values)
    {
        for (var p = 0; p < values.Length; p++)
            this[frame, p] = values[p];
    }

    /// <summary>The nearest step; borders lie midway between neighbours' values.</summary>
    private static byte StepOf(float value)
    {
        if (!(value > Values[1] / 2))
            return 0;
        if (value >= (1 + Values[Certain - 1]) / 2)
            return Certain;
        var logOdds = LogOdds.Of(value, least: 1e-6);
        var near = Math.Clamp(1 + (int)Math.Round((logOdds / Most + 1) / 2 * (Certain - 2)), 1, Certain - 1);
        var best = near;
        for (var step = Math.Max(1, near - 1); step <= Math.Min(Certain - 1, near + 1); step++)
            best = Math.Abs(Values[step] - value) < Math.Abs(Values[best] - value) ? step : best;
        return (byte)best;
    }
}
