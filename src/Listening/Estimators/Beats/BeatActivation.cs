namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// How strongly each moment speaks for a beat, at a fixed frame rate; what the decoder reads. Frame f stands for f / <see cref="FrameRate"/> seconds.
/// </summary>
internal sealed class BeatActivation
{
    public BeatActivation(double frameRate, float[] beat) => (FrameRate, Beat) = (frameRate, beat);

    public double FrameRate { get; }

    /// <summary>Shape (frames). Log-odds-like: 0 says nothing, above 0 speaks for a beat, below against; about −2 to 2.</summary>
    public float[] Beat { get; }

    public int Frames => Beat.Length;

    /// <summary>The strongest value within a few hundredths of a second.</summary>
    public float Peak(double seconds, double reach = 0.025) => Curve.Peak(Beat, seconds * FrameRate, reach * FrameRate);
}
