using Harkbook.Audio.Signals;
using Harkbook.Listening.Estimators.Notes;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>
/// What the line network looks at: the note network's two spectra, and each bin's place in the stereo picture, from −0.5 (20 dB louder
/// on the left) to 0.5 (on the right); 0 throughout with one channel. Shape 3 × frames × <see cref="LogSpectrum.Bins"/>.
/// The training program makes the same numbers (training/README.md), held equal by a test.
/// </summary>
/// <param name="sound">At <see cref="LogSpectrum.Rate"/>; channels beyond the second have no place.</param>
internal sealed class LineNetworkInput(ISound sound, Hertz a4)
{
    public const int Channels = 3;

    /// <summary>The power under which a bin is in the middle, so that noise has no place.</summary>
    private const float Quiet = 1e-7f;

    private const float DecibelsAcross = 40;

    private readonly NoteNetworkInput notes = new(sound.ToMono(), a4);
    private readonly NetworkKernels wide = NetworkKernels.Long(a4);

    public int Frames => notes.Frames;

    /// <summary>Fills the values of some frames; frames before the sound or after it hold silence.</summary>
    /// <param name="values">3 × count × bins.</param>
    public void Fill(int first, int count, float[] values, CancellationToken ct)
    {
        const int Bins = LogSpectrum.Bins;
        notes.Fill(first, count, values, ct);
        if (sound.ChannelCount == 1)
        {
            values.AsSpan(2 * count * Bins, count * Bins).Clear();
            return;
        }
        var piece = sound.Cut(first * LogSpectrum.HopSamples - CentredTransform.Size / 2, count * LogSpectrum.HopSamples + CentredTransform.Size);
        Parallel.For(0, count, new ParallelOptions { CancellationToken = ct }, () => new CentredTransform(), (i, _, transform) =>
        {
            var centre = CentredTransform.Size / 2 + i * LogSpectrum.HopSamples;
            transform.Take(piece.Channels[0], centre);
            var left = wide.Apply(transform);
            transform.Take(piece.Channels[1], centre);
            Place(left, wide.Apply(transform), values.AsSpan((2 * count + i) * Bins, Bins));
            return transform;
        }, _ => { });
    }

    private void Place(float[] left, float[] right, Span<float> values)
    {
        var gain = notes.Gain * notes.Gain;
        for (var b = 0; b < values.Length; b++)
            values[b] = Math.Clamp(10 * MathF.Log10((right[b] * right[b] * gain + Quiet) / (left[b] * left[b] * gain + Quiet)) / DecibelsAcross, -0.5f, 0.5f);
    }
}
