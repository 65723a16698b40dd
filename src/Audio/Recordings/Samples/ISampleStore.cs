namespace Harkbook.Audio.Recordings.Samples;

/// <summary>Where the samples of one channel go.</summary>
internal interface ISampleStore
{
    void Add(ReadOnlySpan<float> samples);
}
