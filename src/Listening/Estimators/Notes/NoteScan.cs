using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Notes;

/// <summary>Hears a recording through the note network.</summary>
internal sealed class NoteScan : ISpectraListener, IDisposable
{
    private readonly NoteNetwork network = NoteNetwork.Shipped();
    private PosteriorMatrix onset = new(0, NoteNetwork.Pitches);
    private PosteriorMatrix sounding = new(0, NoteNetwork.Pitches);
    private PosteriorMatrix end = new(0, NoteNetwork.Pitches);
    private LevelMatrix level = new(0, NoteNetwork.Pitches);

    public int Context => network.Context;

    public int Planes => NoteNetwork.Planes;

    public void Begin(int frames) => (onset, sounding, end, level) =
        (new(frames, NoteNetwork.Pitches), new(frames, NoteNetwork.Pitches), new(frames, NoteNetwork.Pitches), new(frames, NoteNetwork.Pitches));

    public void Hear(SpectraPiece piece)
    {
        var heard = network.Weigh(piece.Planes(Planes), piece.Frames);
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
