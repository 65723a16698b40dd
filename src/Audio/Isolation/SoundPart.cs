using System.Collections.Immutable;
using Harkbook.Audio.Recordings;
using Harkbook.Audio.Recordings.Samples;
using Harkbook.Audio.Signals;

namespace Harkbook.Audio.Isolation;

/// <summary>
/// A part of a recording taken out of the whole, for the ear or for an estimator: a channel, the middle or the sides, a place in
/// the stereo picture, what is held or what is struck, a band of frequencies. Nothing in it is new sound: it is the recording with
/// something taken away, and what else sounds in the same place stays in it.
/// </summary>
public abstract class SoundPart
{
    private protected SoundPart(string text) => Text = text;

    /// <summary>As <see cref="TryParse"/> reads it.</summary>
    public string Text { get; }

    /// <summary>What <see cref="TryParse"/> reads, in words.</summary>
    public const string Words = "left, right, mid, side, held, struck, rest, pan:FROM..TO (-100 left to 100 right), band:LOW..HIGH (in Hz); several are joined "
        + "by +, as in pan:-100..-30+held";

    /// <summary>The part of a sound: as long as the sound, at its rate; in memory.</summary>
    public Signal Of(ISound sound, CancellationToken ct = default)
    {
        using var part = Stored(sound, ct);
        return part.Cut(0, part.Length);
    }

    /// <summary>The same, waiting on the disk; to be disposed of.</summary>
    /// <exception cref="UnwritableFileException">There is no room for it.</exception>
    public StoredSound Stored(ISound sound, CancellationToken ct = default) => StoredSound.Of(sound.Rate, Blocks(sound, ct));

    /// <summary>Whether the part is a place in the stereo picture, which a sound of one channel hasn't got.</summary>
    public virtual bool NeedsTwoChannels => false;

    /// <summary>The part from start to end, in blocks of an array a channel: one block at least, all of the same channels.</summary>
    internal abstract IEnumerable<float[][]> Blocks(ISound sound, CancellationToken ct);

    /// <summary>A sound in blocks.</summary>
    private protected static IEnumerable<float[][]> Blocks(ISound sound)
    {
        const int Length = 1 << 16;
        for (var start = 0; start == 0 || start < sound.Length; start += Length)
            yield return [.. sound.Cut(start, Math.Min(Length, sound.Length - start)).Channels];
    }

    public override string ToString() => Text;

    public static bool TryParse(string text, out SoundPart? part)
    {
        var parts = text.Split('+').Select(PartNames.Find).ToImmutableArray();
        part = parts.Any(p => p is null) ? null : parts.Aggregate((of, then) => new Chain(text, of!, then!));
        return part is not null;
    }

    /// <summary>One part of another's part.</summary>
    private sealed class Chain(string text, SoundPart first, SoundPart then) : SoundPart(text)
    {
        public override bool NeedsTwoChannels => first.NeedsTwoChannels || then.NeedsTwoChannels;

        internal override IEnumerable<float[][]> Blocks(ISound sound, CancellationToken ct)
        {
            using var between = first.Stored(sound, ct);
            foreach (var block in then.Blocks(between, ct))
                yield return block;
        }
    }
}
