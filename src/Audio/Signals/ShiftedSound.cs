using Harkbook.Units;

namespace Harkbook.Audio.Signals;

/// <summary>A sound that begins later, or earlier where the shift is negative, in a stretch of a length.</summary>
/// <param name="by">Samples from the stretch's start to the sound's.</param>
public sealed class ShiftedSound(ISound sound, int by, int length) : ISound
{
    public SampleRate Rate => sound.Rate;

    public int ChannelCount => sound.ChannelCount;

    public int Length => length;

    public void Read(int channel, int start, Span<float> into)
    {
        sound.Read(channel, start - by, into);
        into[..Math.Clamp(-start, 0, into.Length)].Clear();
        into[Math.Clamp(length - start, 0, into.Length)..].Clear();
    }
}
