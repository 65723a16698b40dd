using System.Buffers;
using Harkbook.Units;

namespace Harkbook.Audio.Signals;

/// <summary>A sound at another rate. Every sample is the one that <see cref="ResamplingStream"/> gives, wherever reading starts.</summary>
internal sealed class ResampledSound(ISound sound, SampleRate rate) : ISound
{
    private readonly ResamplingFilter filter = new(sound.Rate, rate);

    public SampleRate Rate => rate;

    public int ChannelCount => sound.ChannelCount;

    public int Length => (int)Math.Round((double)sound.Length * filter.Up / filter.Down);

    public void Read(int channel, int start, Span<float> into)
    {
        var (from, to) = (Math.Max(0, start), (int)Math.Min(Length, (long)start + into.Length));
        into.Clear();
        if (from >= to)
            return;
        var first = Before(from);
        var rented = ArrayPool<float>.Shared.Rent(Before(to - 1) - first + 2 * filter.Half);
        var input = rented.AsSpan(0, Before(to - 1) - first + 2 * filter.Half);
        sound.Read(channel, first - (filter.Half - 1), input);
        for (var n = from; n < to; n++)
            into[n - start] = filter.At(input.Slice(Before(n) - first, 2 * filter.Half), (int)((long)n * filter.Down % filter.Up));
        ArrayPool<float>.Shared.Return(rented);
    }

    /// <summary>The last input sample at or before an output sample.</summary>
    private int Before(int n) => (int)((long)n * filter.Down / filter.Up);
}
