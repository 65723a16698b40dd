using Harkbook.Units;

namespace Harkbook.Audio.Signals;

/// <summary>
/// Sound that is read a stretch at a time, from any place and as often as wanted, so that an hour needn't be held to be listened to.
/// Several threads may read at once.
/// </summary>
public interface ISound
{
    SampleRate Rate { get; }

    /// <summary>1 or more.</summary>
    int ChannelCount { get; }

    /// <summary>Samples in each channel.</summary>
    int Length { get; }

    Seconds Duration => Rate.TimeOf(Length);

    /// <summary>Fills a stretch of one channel; zeros stand before the start of the sound and after its end.</summary>
    /// <param name="channel">From 0.</param>
    /// <param name="start">The stretch's first sample; it may lie before 0 or beyond the end.</param>
    /// <param name="into">As long as the stretch.</param>
    void Read(int channel, int start, Span<float> into);
}
