using Harkbook.Units;

namespace Harkbook.Audio.Signals;

/// <summary>Sound in memory: one array of samples a channel, all of one length, nominally −1 to 1.</summary>
public sealed class Signal : ISound
{
    private readonly float[][] channels;

    public Signal(SampleRate rate, params float[][] channels)
    {
        if (channels.Length == 0 || channels.Any(c => c.Length != channels[0].Length))
            throw new ArgumentException("A signal needs at least one channel, and all of one length.", nameof(channels));
        Rate = rate;
        this.channels = channels;
    }

    public SampleRate Rate { get; }

    public IReadOnlyList<float[]> Channels => channels;

    public int ChannelCount => channels.Length;

    /// <summary>Samples in each channel.</summary>
    public int Length => channels[0].Length;

    public Seconds Duration => Rate.TimeOf(Length);

    /// <summary>The mean of all channels; the same signal when it has one.</summary>
    public Signal ToMono()
    {
        if (channels.Length == 1)
            return this;
        var mono = new float[Length];
        foreach (var channel in channels)
        {
            for (var i = 0; i < mono.Length; i++)
                mono[i] += channel[i] / channels.Length;
        }
        return new(Rate, mono);
    }

    public void Read(int channel, int start, Span<float> into)
    {
        var (from, to) = ((int)Math.Clamp((long)start, 0, Length), (int)Math.Clamp((long)start + into.Length, 0, Length));
        into.Clear();
        if (from < to)
            channels[channel].AsSpan(from, to - from).CopyTo(into[(from - start)..]);
    }
}
