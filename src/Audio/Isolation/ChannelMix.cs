using Harkbook.Audio.Signals;

namespace Harkbook.Audio.Isolation;

/// <summary>One channel made of the first two: left, right, their mean (mid) or half their difference (side). Of one channel the side is silence.</summary>
internal sealed class ChannelMix(string text, float ofLeft, float ofRight) : SoundPart(text)
{
    public override bool NeedsTwoChannels => true;

    internal override IEnumerable<float[][]> Blocks(ISound sound, CancellationToken ct)
    {
        foreach (var block in Blocks(sound))
        {
            ct.ThrowIfCancellationRequested();
            var (left, right) = (block[0], block[block.Length > 1 ? 1 : 0]);
            yield return [[.. left.Zip(right, (l, r) => ofLeft * l + ofRight * r)]];
        }
    }
}
