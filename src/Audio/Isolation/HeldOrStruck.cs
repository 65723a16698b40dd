using Harkbook.Audio.Signals;

namespace Harkbook.Audio.Isolation;

/// <summary>The three textures that sound is parted into.</summary>
internal enum Texture
{
    /// <summary>What lies level in a spectrogram: notes while they ring.</summary>
    Held,

    /// <summary>What stands upright in it: attacks, taps, clicks.</summary>
    Struck,

    /// <summary>Neither: noise, breath, room.</summary>
    Rest,
}

/// <summary>
/// Parts held from struck sound by medians along time and along frequency (D. FitzGerald, "Harmonic/percussive separation using
/// median filtering", DAFx 2010), with a rest that is clearly neither (J. Driedger, M. Müller and S. Disch, "Extending
/// harmonic-percussive separation of audio signals", ISMIR 2014). The three add up to the sound.
/// </summary>
internal sealed class HeldOrStruck(string text, Texture wanted) : SoundPart(text)
{
    /// <summary>How much greater one median must be than the other to claim a bin; the separation factor of the 2014 paper.</summary>
    private const float Clearly = 1.6f;

    private const int FramesAround = 8, BinsAround = 8, Piece = 256;

    internal override IEnumerable<float[][]> Blocks(ISound sound, CancellationToken ct)
    {
        var frames = new Frames(sound.Rate);
        var joined = Enumerable.Range(0, sound.ChannelCount).Select(_ => new JoinedFrames(frames, sound.Length)).ToArray();
        var count = frames.CountOf(sound.Length);
        for (var first = 0; first < count; first += Piece)
        {
            ct.ThrowIfCancellationRequested();
            for (var c = 0; c < joined.Length; c++)
                PartPiece(sound, c, frames, first, Math.Min(Piece, count - first), joined[c]);
            yield return [.. joined.Select(j => j.Take())];
        }
    }

    private void PartPiece(ISound sound, int channel, Frames frames, int first, int count, JoinedFrames kept)
    {
        var spectra = new Bin[count + 2 * FramesAround][];
        var magnitudes = new float[spectra.Length][];
        for (var f = 0; f < spectra.Length; f++)
        {
            spectra[f] = new Bin[frames.Bins];
            frames.Take(sound, channel, first - FramesAround + f, spectra[f]);
            magnitudes[f] = [.. spectra[f].Select(b => b.Magnitude)];
        }
        Parallel.For(FramesAround, FramesAround + count, f => Keep(spectra[f], magnitudes, f));
        for (var f = FramesAround; f < FramesAround + count; f++)
            kept.Add(spectra[f]);
    }

    private void Keep(Bin[] spectrum, float[][] magnitudes, int frame)
    {
        Span<float> along = stackalloc float[2 * FramesAround + 1];
        Span<float> across = stackalloc float[2 * BinsAround + 1];
        var here = magnitudes[frame];
        for (var k = 0; k < spectrum.Length; k++)
        {
            for (var f = 0; f < along.Length; f++)
                along[f] = magnitudes[frame - FramesAround + f][k];
            for (var b = 0; b < across.Length; b++)
                across[b] = here[Math.Clamp(k - BinsAround + b, 0, here.Length - 1)];
            if (TextureOf(Median(along), Median(across)) != wanted)
                spectrum[k] = default;
        }
    }

    private static Texture TextureOf(float held, float struck) =>
        held > Clearly * struck ? Texture.Held : struck >= Clearly * held ? Texture.Struck : Texture.Rest;

    private static float Median(Span<float> values)
    {
        values.Sort();
        return values[values.Length / 2];
    }
}
