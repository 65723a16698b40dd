namespace Harkbook.Listening;

/// <summary>A matrix of frames × pitches of chances, 0–1, kept in 65 535 steps: an hour of 61 pitches takes 38 MB.</summary>
public sealed class PosteriorMatrix
{
    private const float Steps = ushort.MaxValue;

    private readonly ushort[,] steps;

    /// <summary>All 0.</summary>
    public PosteriorMatrix(int frames, int pitches) => steps = new ushort[frames, pitches];

    public int Frames => steps.GetLength(0);

    public int Pitches => steps.GetLength(1);

    /// <summary>Set: rounded to the nearest step; what lies outside 0 to 1 becomes the nearer of them.</summary>
    public float this[int frame, int pitch]
    {
        get => steps[frame, pitch] / Steps;
        set => steps[frame, pitch] = (ushort)(Math.Clamp(value, 0, 1) * Steps + 0.5f);
    }

    /// <param name="values">Frames × pitches.</param>
    public static PosteriorMatrix Of(float[,] values)
    {
        var chances = new PosteriorMatrix(values.GetLength(0), values.GetLength(1));
        for (var f = 0; f < chances.Frames; f++)
        {
            for (var p = 0; p < chances.Pitches; p++)
                chances[f, p] = values[f, p];
        }
        return chances;
    }

    /// <summary>Fills a frame.</summary>
    /// <param name="values">One a pitch.</param>
    public void Fill(int frame, ReadOnlySpan<float> values)
    {
        for (var p = 0; p < values.Length; p++)
            this[frame, p] = values[p];
    }
}
