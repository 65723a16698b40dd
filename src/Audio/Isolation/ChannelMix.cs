using Harkbook.Audio.Signals;

namespace Harkbook.Audio.Isolation;

/// <summary>One channel made of the first two: left, right, their mean (mid) or half their difference (side). Of one channel the side is silence.</summary>
internal sealed class ChannelMix(string text, float ofLeft, float ofRight) : SoundPart(text)
{
    public override bool NeedsTwoChannels => true;

    public override Signal Of(Signal sound, CancellationToken ct = default)
    {
        var (left, right) = (sound.Channels[0], sound.Channels[sound.Channels.Count > 1 ? 1 : 0]);
        var mixed = new float[sound.Length];
        for (var n = 0; n < mixed.Length; n++)
            mixed[n] = ofLeft * left[n] + ofRight * right[n];
        return new(sound.Rate, mixed);
    }
}
