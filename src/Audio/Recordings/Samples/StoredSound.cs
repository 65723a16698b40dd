using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Recordings.Samples;

/// <summary>Sound that waits on the disk, in temporary files that vanish with it.</summary>
public sealed class StoredSound : ISound, IDisposable
{
    private readonly SampleFile[] channels;

    internal StoredSound(SampleRate rate, SampleFile[] channels) => (Rate, this.channels) = (rate, channels);

    public SampleRate Rate { get; }

    public int ChannelCount => channels.Length;

    public int Length => channels[0].Length;

    /// <summary>Keeps blocks of sound, one after another, each an array a channel.</summary>
    /// <exception cref="UnwritableFileException">The disk is full, or there is no folder for temporary files.</exception>
    public static StoredSound Of(SampleRate rate, IEnumerable<float[][]> blocks)
    {
        StoredSound? sound = null;
        try
        {
            foreach (var block in blocks)
            {
                sound ??= Empty(rate, block.Length);
                for (var c = 0; c < block.Length; c++)
                    sound.channels[c].Add(block[c]);
            }
            return sound ?? throw new ArgumentException("A sound needs at least one block, which may be empty, to know its channels by.", nameof(blocks));
        }
        catch
        {
            sound?.Dispose();
            throw;
        }
    }

    public void Read(int channel, int start, Span<float> into)
    {
        var (from, to) = ((int)Math.Clamp((long)start, 0, Length), (int)Math.Clamp((long)start + into.Length, 0, Length));
        into.Clear();
        if (from < to)
            channels[channel].Read(from, into.Slice(from - start, to - from));
    }

    public void Dispose()
    {
        foreach (var channel in channels)
            channel.Dispose();
    }

    internal static StoredSound Empty(SampleRate rate, int channels)
    {
        var files = new List<SampleFile>();
        try
        {
            while (files.Count < channels)
                files.Add(SampleFile.Create(SampleFile.UsualFolder));
            return new(rate, [.. files]);
        }
        catch
        {
            files.ForEach(f => f.Dispose());
            throw;
        }
    }

    /// <summary>Where each channel's samples go.</summary>
    internal IReadOnlyList<ISampleStore> Stores => channels;
}
