using Harkbook.Units;

namespace Harkbook.Audio.Signals;

/// <summary>Other ways to hear a sound; nothing is computed before it is read.</summary>
public static class SoundViews
{
    /// <summary>The mean of all channels; the same sound when it has one.</summary>
    public static ISound ToMono(this ISound sound) => sound.ChannelCount == 1 ? sound : new MixedSound(sound);

    /// <summary>The sound at another rate (<see cref="Resampler"/>); the same sound when it has that rate.</summary>
    public static ISound At(this ISound sound, SampleRate rate) => sound.Rate == rate ? sound : new ResampledSound(sound, rate);

    /// <summary>The whole sound in blocks, an array a channel each.</summary>
    public static IEnumerable<float[][]> Blocks(this ISound sound)
    {
        const int Length = 1 << 14;
        for (var start = 0; start < sound.Length; start += Length)
            yield return [.. sound.Cut(start, Math.Min(Length, sound.Length - start)).Channels];
    }

    /// <summary>A stretch of all channels in memory, with zeros where it reaches beyond the sound.</summary>
    public static Signal Cut(this ISound sound, int start, int length)
    {
        var channels = new float[sound.ChannelCount][];
        for (var c = 0; c < channels.Length; c++)
            sound.Read(c, start, channels[c] = new float[length]);
        return new(sound.Rate, channels);
    }
}
