namespace Harkbook.Audio.Recordings.Formats;

/// <summary>A compressed sound format and the file it is kept in.</summary>
public enum AudioFormat
{
    /// <summary>AAC at 192 kbit/s in an .m4a file.</summary>
    Aac,

    /// <summary>MP3, variable bit rate, about 190 kbit/s for stereo.</summary>
    Mp3,

    /// <summary>FLAC, lossless, 24-bit. Samples beyond ±1 are clipped.</summary>
    Flac,

    /// <summary>Opus at 128 kbit/s in an .opus (Ogg) file, always at 48 kHz (RFC 6716).</summary>
    Opus,
}
