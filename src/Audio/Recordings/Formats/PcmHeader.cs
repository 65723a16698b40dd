namespace Harkbook.Audio.Recordings.Formats;

/// <summary>Tells WAV and AIFF files by their first bytes and reads their heads.</summary>
internal static class PcmHeader
{
    /// <summary>The layout, or null when the file isn't WAV or AIFF, or is coded otherwise than as plain samples.</summary>
    public static PcmLayout? Read(Stream stream, string path)
    {
        var head = new byte[12];
        stream.Position = 0;
        if (stream.ReadAtLeast(head, 12, throwOnEndOfStream: false) < 12)
            return null;
        var outer = head.AsSpan(0, 4);
        var inner = head.AsSpan(8, 4);
        if (inner.SequenceEqual("WAVE"u8) && (outer.SequenceEqual("RIFF"u8) || outer.SequenceEqual("RF64"u8) || outer.SequenceEqual("BW64"u8)))
            return WaveHeader.Read(stream, path);
        return outer.SequenceEqual("FORM"u8) && (inner.SequenceEqual("AIFF"u8) || inner.SequenceEqual("AIFC"u8))
            ? AiffHeader.Read(stream, path)
            : null;
    }
}
