namespace Harkbook.Audio.Recordings.Samples;

/// <summary>The samples of one channel in memory.</summary>
/// <param name="room">The likely number of them.</param>
internal sealed class SampleArray(int room) : ISampleStore
{
    private float[] samples = new float[room];
    private int count;

    public void Add(ReadOnlySpan<float> ready)
    {
        if (count + ready.Length > samples.Length)
            Array.Resize(ref samples, count + ready.Length + samples.Length / 8);
        ready.CopyTo(samples.AsSpan(count));
        count += ready.Length;
    }

    public float[] Finish()
    {
        Array.Resize(ref samples, count);
        return samples;
    }
}
