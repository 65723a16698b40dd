using System.Buffers;
using Harkbook.Units;

namespace Harkbook.Audio.Signals;

/// <summary>The mean of all channels of a sound.</summary>
internal sealed class MixedSound(ISound sound) : ISound
{
    public SampleRate Rate => sound.Rate;

    public int ChannelCount => 1;

    public int Length => sound.Length;

    public void Read(int channel, int start, Span<float> into)
    {
        var rented = ArrayPool<float>.Shared.Rent(into.Length);
        var lane = rented.AsSpan(0, into.Length);
        into.Clear();
        for (var c = 0; c < sound.ChannelCount; c++)
        {
            sound.Read(c, start, lane);
            for (var i = 0; i < lane.Length; i++)
                into[i] += lane[i] / sound.ChannelCount;
        }
        ArrayPool<float>.Shared.Return(rented);
    }
}
