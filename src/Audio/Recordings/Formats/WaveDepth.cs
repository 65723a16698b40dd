namespace Harkbook.Audio.Recordings.Formats;

/// <summary>How a WAV file stores each sample.</summary>
public enum WaveDepth
{
    /// <summary>16-bit whole numbers: plays everywhere. Samples beyond ±1 are clipped.</summary>
    Bits16,

    /// <summary>24-bit whole numbers. Samples beyond ±1 are clipped.</summary>
    Bits24,

    /// <summary>32-bit floating point: exact.</summary>
    Float32,
}
