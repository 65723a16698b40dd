using System.Collections.Immutable;
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
    public const string Words = "left, right, mid, side, held, struck, rest, pan:FROM..TO (-100 left to 100 right), band:LOW..HIGH (in Hz); several are joined by +, as in pan:-100..-30+held";

    /// <summary>The part of a sound: as long as the sound, at its rate.</summary>
    public abstract Signal Of(Signal sound, CancellationToken ct = default);

    /// <summary>Whether the part is a place in the stereo picture, which a sound of one channel hasn't got.</summary>
    public virtual bool NeedsTwoChannels => false;

    public override string ToString() => Text;

    public static bool TryParse(string text, out SoundPart? part)
    {
        var parts = text.Split('+').Select(PartNames.Find).ToImmutableArray();
        part = parts.Any(p => p is null) ? null : parts.Length == 1 ? parts[0] : new Chain(text, parts!);
        return part is not null;
    }

    /// <summary>One part of another's part.</summary>
    private sealed class Chain(string text, ImmutableArray<SoundPart> parts) : SoundPart(text)
    {
        public override bool NeedsTwoChannels => parts.Any(p => p.NeedsTwoChannels);

        public override Signal Of(Signal sound, CancellationToken ct = default) => parts.Aggregate(sound, (s, part) => part.Of(s, ct));
    }
}
