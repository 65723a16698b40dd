using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Notes;

/// <summary>
/// Notes from MIDI 36 to 96 by a convolutional network over log spectra, trained on sound that we made
/// (training/README.md; the card is models/README.md). Long recordings pass through it in pieces, so memory stays flat
/// but for the evidence itself.
/// </summary>
/// <remarks>
/// The family: C. Hawthorne et al., "Onsets and frames: dual-objective piano transcription", ISMIR 2018;
/// R. M. Bittner et al., "A lightweight instrument-agnostic model for polyphonic note transcription", ICASSP 2022.
/// </remarks>
public sealed class NetworkNoteEstimator : INoteEstimator
{
    private const int PieceFrames = 1024;

    public NoteEstimate Estimate(ISound mono, Hertz a4, IProgress<double>? progress, CancellationToken ct)
    {
        using var network = NoteNetwork.Shipped();
        var input = new NoteNetworkInput(mono.ToMono().At(LogSpectrum.Rate), a4);
        var (onset, sounding) = (new Chances(input.Frames, NoteNetwork.Pitches), new Chances(input.Frames, NoteNetwork.Pitches));
        var strength = new Chances(input.Frames, NoteNetwork.Pitches);
        var values = new float[2 * (PieceFrames + 2 * network.Context) * LogSpectrum.Bins];
        for (var first = 0; first < input.Frames; first += PieceFrames)
        {
            ct.ThrowIfCancellationRequested();
            var frames = PieceFrames + 2 * network.Context;
            input.Fill(first - network.Context, frames, values, ct);
            var piece = network.Weigh(values, frames);
            for (var f = first; f < Math.Min(input.Frames, first + PieceFrames); f++)
            {
                var at = f - first + network.Context;
                onset.Fill(f, piece.Onset.AsSpan(at * NoteNetwork.Pitches, NoteNetwork.Pitches));
                sounding.Fill(f, piece.Sounding.AsSpan(at * NoteNetwork.Pitches, NoteNetwork.Pitches));
                FillStrength(values.AsSpan((frames + at) * LogSpectrum.Bins, LogSpectrum.Bins), strength, f);
            }
            progress?.Report(Math.Min(1, (first + PieceFrames) / (double)input.Frames));
        }
        var evidence = new NoteEvidence(LogSpectrum.Hop, NoteNetwork.LowestMidi, sounding, onset);
        var picker = new NotePicker(new() { OnsetThreshold = network.OnsetThreshold, ReleaseThreshold = network.SoundingThreshold });
        return new(picker.Pick(evidence, (f, p) => Strength(strength, f, p)), evidence);
    }

    /// <summary>How loud a pitch is: the loudest of its first three partials in the short spectrum, 0 at −80 dB and 1 at −20 dB.</summary>
    private static void FillStrength(ReadOnlySpan<float> brief, Chances strength, int frame)
    {
        for (var p = 0; p < NoteNetwork.Pitches; p++)
        {
            var loudest = -0.5f;
            foreach (var partial in (ReadOnlySpan<double>)[0, 12, 19.02])
            {
                var bin = NetworkKernels.BinOf(NoteNetwork.LowestMidi + p + partial);
                if (bin < LogSpectrum.Bins)
                    loudest = Math.Max(loudest, brief[bin]);
            }
            strength[frame, p] = loudest + 0.5f;
        }
    }

    /// <summary>The loudest within 60 ms after the onset.</summary>
    private static double Strength(Chances strength, int onset, int pitch)
    {
        var loudest = 0f;
        for (var f = onset; f < Math.Min(strength.Frames, onset + 6); f++)
            loudest = Math.Max(loudest, strength[f, pitch]);
        return loudest;
    }
}
