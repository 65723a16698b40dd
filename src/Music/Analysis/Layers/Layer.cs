namespace Harkbook.Music.Analysis.Layers;

/// <summary>A part of a song that makes notes.</summary>
public enum Layer
{
    /// <summary>The guitar's shape, strummed.</summary>
    Strummed,

    /// <summary>Picked notes, ringing on.</summary>
    Picked,

    Harmonica,

    /// <summary>A second guitar's shape.</summary>
    SecondGuitar,

    /// <summary>The tune, sung or played over the others.</summary>
    Tune,
}
