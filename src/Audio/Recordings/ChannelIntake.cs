using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Recordings;

/// <summary>One growing channel at the rate that is wanted.</summary>
internal sealed class ChannelIntake(SampleRate from, SampleRate to, int room)
{
    private readonly ResamplingStream? resampling = from == to ? null : new(from, to);
    private float[] samples = new float[room];
    private int count;

    public void Take(ReadOnlySpan<float> input) => Keep(resampling is null ? input : resampling.Push(input));

    public float[] Finish()
    {
        if (resampling is not null)
            Keep(resampling.Finish());
        Array.Resize(ref samples, count);
        return samples;
    }

    private void Keep(ReadOnlySpan<float> ready)
    {
        if (count + ready.Length > samples.Length)
            Array.Resize(ref samples, count + ready.Length + samples.Length / 8);
        ready.CopyTo(samples.AsSpan(count));
        count += ready.Length;
    }
}
