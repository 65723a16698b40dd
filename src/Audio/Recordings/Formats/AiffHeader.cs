using System.Buffers.Binary;
using System.Text;

namespace Harkbook.Audio.Recordings.Formats;

/// <summary>Reads the head of an AIFF or AIFF-C file: Apple, Audio Interchange File Format 1.3 (1989) and AIFF-C (1991).</summary>
internal static class AiffHeader
{
    /// <summary>The layout, or null when the file is an AIFF-C whose coding isn't plain samples.</summary>
    public static PcmLayout? Read(Stream stream, string path)
    {
        var chunks = new Chunks(stream, bigEndian: true);
        byte[]? common = null;
        (long Start, long Size)? sound = null;
        while (chunks.Next())
        {
            if (chunks.Id == "COMM")
                common = chunks.Read(22);
            else if (chunks.Id == "SSND" && chunks.Read(8) is { Length: 8 } head)
                sound = (chunks.Start + 8 + BinaryPrimitives.ReadUInt32BigEndian(head), chunks.Size - 8);
        }
        if (common is not { Length: >= 18 } || sound is not { } place)
            throw new RecordingException($"{path}: this AIFF file holds no sound that can be read. Export it again from where it came.");
        return Layout(common, place.Start, stream.Length, path);
    }

    private static PcmLayout? Layout(byte[] common, long start, long fileLength, string path)
    {
        int channels = BinaryPrimitives.ReadUInt16BigEndian(common);
        var frames = BinaryPrimitives.ReadUInt32BigEndian(common.AsSpan(2));
        var bytes = (BinaryPrimitives.ReadUInt16BigEndian(common.AsSpan(6)) + 7) / 8;
        var coding = common.Length >= 22 ? Encoding.Latin1.GetString(common, 18, 4) : "NONE";
        if (Sample(coding, bytes) is not { } sample)
            return null;
        FormatLimits.RequireChannels(channels, path);
        var rate = FormatLimits.Rate(Extended(common.AsSpan(8, 10)), path);
        var there = Math.Max(0, fileLength - start) / (channels * sample.Bytes);
        return new("AIFF", rate, channels, sample, start, frames, Math.Min(frames, there));
    }

    private static SampleFormat? Sample(string coding, int bytes) => (coding, bytes) switch
    {
        ("NONE" or "twos", >= 1 and <= 4) => new(bytes, SampleKind.Signed, BigEndian: true),
        ("sowt", >= 1 and <= 4) => new(bytes, SampleKind.Signed, BigEndian: false),
        ("in24", _) => new(3, SampleKind.Signed, BigEndian: true),
        ("in32", _) => new(4, SampleKind.Signed, BigEndian: true),
        ("fl32" or "FL32", _) => new(4, SampleKind.Float, BigEndian: true),
        ("fl64" or "FL64", _) => new(8, SampleKind.Float, BigEndian: true),
        _ => null,
    };

    /// <summary>An 80-bit extended number (IEEE 754 double extended; Apple SANE): sign and exponent with bias 16383, then 64 bits with an explicit 1.</summary>
    private static double Extended(ReadOnlySpan<byte> bytes)
    {
        var exponent = (BinaryPrimitives.ReadUInt16BigEndian(bytes) & 0x7FFF) - 16383 - 63;
        return BinaryPrimitives.ReadUInt64BigEndian(bytes[2..]) * Math.Pow(2, exponent);
    }
}
