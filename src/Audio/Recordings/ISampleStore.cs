namespace Harkbook.Audio.Recordings;

/// <summary>Where the samples of one channel go.</summary>
internal interface ISampleStore
{
    void Add(ReadOnlySpan<float> samples);
}
