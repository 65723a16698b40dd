namespace Harkbook.Listening.Estimators.Notes;

/// <summary>Whoever hears a recording through a network, piece after piece (<see cref="SpectraScan"/>).</summary>
internal interface ISpectraListener
{
    /// <summary>How many frames on either side it looks at.</summary>
    int Context { get; }

    /// <summary>How many of the planes of <see cref="NetworkSpectra"/> it looks at.</summary>
    int Planes { get; }

    /// <summary>Told once before the first piece.</summary>
    /// <param name="frames">Of the whole recording.</param>
    void Begin(int frames);

    void Hear(SpectraPiece piece);
}
