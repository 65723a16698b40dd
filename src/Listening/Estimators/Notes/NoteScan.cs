namespace Harkbook.Listening.Estimators.Notes;

/// <summary>Hears a recording through the note network and picks notes from what it says.</summary>
internal sealed class NoteScan : ISpectraListener, IDisposable
{
    private readonly NoteNetwork network = NoteNetwork.Shipped();
    private PosteriorMatrix onset = new(0, NoteNetwork.Pitches);
    private PosteriorMatrix sounding = new(0, NoteNetwork.Pitches);
    private PosteriorMatrix strength = new(0, NoteNetwork.Pitches);

    public int Context => network.Context;

    public int Planes => NoteNetwork.Planes;

    public void Begin(int frames) =>
        (onset, sounding, strength) = (new(frames, NoteNetwork.Pitches), new(frames, NoteNetwork.Pitches), new(frames, NoteNetwork.Pitches));

    public void Hear(SpectraPiece piece)
    {
        var heard = network.Weigh(piece.Planes(Planes), piece.Frames);
        for (var f = 0; f < piece.Count; f++)
        {
            var at = (piece.Context + f) * NoteNetwork.Pitches;
            onset.Fill(piece.First + f, heard.Onset.AsSpan(at, NoteNetwork.Pitches));
            sounding.Fill(piece.First + f, heard.Sounding.AsSpan(at, NoteNetwork.Pitches));
            FillStrength(piece.Row(1, f), piece.First + f);
        }
    }

    /// <summary>Of all that was heard.</summary>
    public NoteEstimate Notes()
    {
        var evidence = new NotePosteriorgram(LogSpectrum.Hop, NoteNetwork.LowestMidi, sounding, onset);
        var picker = new NotePicker(new() { OnsetThreshold = network.OnsetThreshold, ReleaseThreshold = network.SoundingThreshold });
        return new(picker.Pick(evidence, Strength), evidence);
    }

    public void Dispose() => network.Dispose();

    /// <summary>How loud a pitch is: the loudest of its first three partials in the short spectrum, 0 at −80 dB and 1 at −20 dB.</summary>
    private void FillStrength(ReadOnlySpan<float> brief, int frame)
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
    private double Strength(int onset, int pitch)
    {
        var loudest = 0f;
        for (var f = onset; f < Math.Min(strength.Frames, onset + 6); f++)
            loudest = Math.Max(loudest, strength[f, pitch]);
        return loudest;
    }
}
