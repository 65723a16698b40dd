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
    public NoteEstimate Estimate(ISound mono, Hertz a4, IProgress<double>? progress, CancellationToken ct)
    {
        using var scan = new NoteScan();
        SpectraScan.Run(mono, a4, [scan], progress, ct);
        var heard = scan.Posteriorgram();
        return new(new NotePicker(scan.Picking).Pick(heard), heard);
    }
}
