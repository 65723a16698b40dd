using Harkbook.Audio.Signals;
using Harkbook.Listening.Evidence;
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
internal sealed class NoteScan : ISpectraListener, IDisposable
{
    private readonly NoteNetwork network = NoteNetwork.Shipped();
    private PosteriorMatrix onset = new(0, NoteNetwork.Pitches);
    private PosteriorMatrix sounding = new(0, NoteNetwork.Pitches);
    private PosteriorMatrix end = new(0, NoteNetwork.Pitches);
    private LevelMatrix level = new(0, NoteNetwork.Pitches);

    /// <summary>The notes of a whole sound.</summary>
    /// <param name="a4">The recording's own reference pitch; MIDI numbers count from it.</param>
    public static NoteEstimate NotesOf(ISound mono, Hertz a4, CancellationToken ct)
    {
        using var scan = new NoteScan();
        SpectraScan.Run(mono, a4, [scan], progress: null, ct);
        var heard = scan.Posteriorgram();
        return new(new NotePicker(scan.Picking).Pick(heard), heard);
    }

    public int Context => network.Context;

    public int Planes => NoteNetwork.Planes;

    public void Begin(int frames) => (onset, sounding, end, level) =
        (new(frames, NoteNetwork.Pitches), new(frames, NoteNetwork.Pitches), new(frames, NoteNetwork.Pitches), new(frames, NoteNetwork.Pitches));

    public void Hear(SpectraPiece piece)
    {
        var heard = network.Weigh(piece.Planes(Planes), piece.Frames, piece.IsLast);
        for (var f = 0; f < piece.Count; f++)
        {
            var at = (piece.Context + f) * NoteNetwork.Pitches;
            onset.Fill(piece.First + f, heard.Onset.AsSpan(at, NoteNetwork.Pitches));
            sounding.Fill(piece.First + f, heard.Sounding.AsSpan(at, NoteNetwork.Pitches));
            end.Fill(piece.First + f, heard.Offset.AsSpan(at, NoteNetwork.Pitches));
            FillLevel(piece.Row(1, f), piece.First + f);
        }
    }

    /// <summary>Where notes of this network begin and end.</summary>
    public NotePickOptions Picking => new() { OnsetThreshold = network.OnsetThreshold, ReleaseThreshold = network.SoundingThreshold };

    /// <summary>Of all that was heard.</summary>
    public NotePosteriorgram Posteriorgram() => new(LogSpectrum.Hop, NoteNetwork.LowestMidi, sounding, onset, end, level);

    public void Dispose() => network.Dispose();

    /// <summary>The loudest of a pitch's first three partials in the short spectrum.</summary>
    private void FillLevel(ReadOnlySpan<float> brief, int frame)
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
            level[frame, p] = loudest + 0.5f;
        }
    }
}
