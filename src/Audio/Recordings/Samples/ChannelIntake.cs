using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Recordings.Samples;

/// <summary>Brings one channel to the rate that is wanted and stores it.</summary>
internal sealed class ChannelIntake(SampleRate from, SampleRate to, ISampleStore store)
{
    private readonly ResamplingStream? resampling = from == to ? null : new(from, to);

    public void Take(ReadOnlySpan<float> input) => store.Add(resampling is null ? input : resampling.Push(input));

    public void Finish()
    {
        if (resampling is not null)
            store.Add(resampling.Finish());
    }
}
