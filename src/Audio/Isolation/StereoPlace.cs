using Harkbook.Audio.Signals;

namespace Harkbook.Audio.Isolation;

/// <summary>
/// What stands in a part of the stereo picture: each frequency of each moment is kept as far as its place, told from the levels of
/// the two channels, lies in the window (C. Avendano, "Frequency-domain source identification and manipulation in stereo mixes",
/// WASPAA 2003; D. Barry, B. Lawlor and E. Coyle, "Sound source separation: azimuth discrimination and resynthesis", DAFx 2004).
/// Places are those of the equal-power law, −1 left to 1 right. What the channels hold out of phase has no place and is turned down.
/// </summary>
internal sealed class StereoPlace(string text, double from, double to) : SoundPart(text)
{
    private const double Edge = 0.12;

    public override bool NeedsTwoChannels => true;

    internal override IEnumerable<float[][]> Blocks(ISound sound, CancellationToken ct) =>
        sound.ChannelCount > 1 ? Kept(sound, ct)
        : from <= 0 && to >= 0 ? Blocks(sound)
        : Blocks(sound).Select(block => new[] { new float[block[0].Length] });

    private IEnumerable<float[][]> Kept(ISound sound, CancellationToken ct)
    {
        var frames = new Frames(sound.Rate);
        var (left, right) = (new Bin[frames.Bins], new Bin[frames.Bins]);
        var (keptLeft, keptRight) = (new JoinedFrames(frames, sound.Length), new JoinedFrames(frames, sound.Length));
        for (var f = 0; f < frames.CountOf(sound.Length); f++)
        {
            ct.ThrowIfCancellationRequested();
            frames.Take(sound, 0, f, left);
            frames.Take(sound, 1, f, right);
            for (var k = 0; k < left.Length; k++)
            {
                var share = ShareOf(left[k], right[k]);
                (left[k], right[k]) = (Scaled(left[k], share), Scaled(right[k], share));
            }
            keptLeft.Add(left);
            keptRight.Add(right);
            yield return [keptLeft.Take(), keptRight.Take()];
        }
    }

    private float ShareOf(Bin left, Bin right)
    {
        var (l, r) = (left.Magnitude, right.Magnitude);
        if (l + r < 1e-9f)
            return 0;
        var place = Math.Atan2(r, l) * 4 / Math.PI - 1;
        var inside = Math.Min(place - from, to - place);
        var share = Math.Clamp(0.5 + 0.5 * inside / Edge, 0, 1);
        var together = (left.Real * right.Real + left.Imaginary * right.Imaginary) / (l * r + 1e-12f);
        // One channel alone has no phase to compare.
        var balance = 2 * Math.Min(l, r) / (l + r);
        return (float)(share * share * (3 - 2 * share) * (1 - balance * (1 - Math.Max(0, together))));
    }

    private static Bin Scaled(Bin bin, float share) => new(bin.Real * share, bin.Imaginary * share);
}
