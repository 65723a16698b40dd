namespace Harkbook.Listening.Evidence;

/// <summary>The spectrum in bands, 50 times a second: measured from a sound, or kept.</summary>
internal interface IPulseBands
{
    int Frames { get; }

    /// <summary>Fills frames × <see cref="PulseBands.Count"/> values.</summary>
    void Fill(int first, int frames, Memory<float> values, CancellationToken cancellation);

    /// <summary>Fills frames × the bands that tell moments apart.</summary>
    void FillMoments(int first, int frames, Memory<float> values, CancellationToken cancellation);
}
