using System.Buffers.Binary;

namespace Harkbook.Audio.Recordings.Formats;

/// <summary>
/// Reads the head of a WAV file: IBM and Microsoft, Multimedia Programming Interface and Data Specifications 1.0 (1991);
/// WAVE_FORMAT_EXTENSIBLE; 64-bit sizes as in EBU Tech 3306 (RF64) and ITU-R BS.2088 (BW64).
/// </summary>
internal static class WaveHeader
{
    private const int Pcm = 1, IeeeFloat = 3, Extensible = 0xFFFE;

    /// <summary>The layout, or null when the file is a WAV whose coding isn't plain samples.</summary>
    public static PcmLayout? Read(Stream stream, string path)
    {
        var chunks = new Chunks(stream, bigEndian: false);
        byte[]? format = null;
        ulong? longSize = null;
        while (chunks.Next())
        {
            if (chunks.Id == "ds64" && chunks.Read(16) is { Length: 16 } sizes)
                longSize = BinaryPrimitives.ReadUInt64LittleEndian(sizes.AsSpan(8));
            else if (chunks.Id == "fmt ")
                format = chunks.Read(40);
            else if (chunks.Id == "data")
                return Layout(format, chunks, longSize, stream.Length, path);
        }
        throw new RecordingException($"{path}: this WAV file holds no sound (it has no data chunk). Export it again from where it came.");
    }

    private static PcmLayout? Layout(byte[]? format, Chunks data, ulong? longSize, long fileLength, string path)
    {
        if (format is null || format.Length < 16)
            throw new RecordingException(
                $"{path}: this WAV file doesn't say how its sound is stored (no format chunk before the data). Export it again from where it came.");
        if (Sample(format) is not { } sample)
            return null;
        var channels = BinaryPrimitives.ReadUInt16LittleEndian(format.AsSpan(2));
        var rate = FormatLimits.Rate(BinaryPrimitives.ReadUInt32LittleEndian(format.AsSpan(4)), path);
        FormatLimits.RequireChannels(channels, path);
        var there = fileLength - data.Start;
        var promised = longSize is { } size ? (long)Math.Min(size, long.MaxValue) : IsUnfinished(data.Size, there) ? there : data.Size;
        var frameBytes = channels * sample.Bytes;
        return new("WAV", rate, channels, sample, data.Start, promised / frameBytes, Math.Min(promised, there) / frameBytes);
    }

    /// <summary>
    /// Programs that write to a pipe, or lost power, leave the size at 0 or at the largest 31-bit or 32-bit number (common practice).
    /// </summary>
    private static bool IsUnfinished(long size, long there) => size == 0 || (size >= 0x7FFF_F000 && size > there);

    private static SampleFormat? Sample(byte[] format)
    {
        int tag = BinaryPrimitives.ReadUInt16LittleEndian(format);
        int bits = BinaryPrimitives.ReadUInt16LittleEndian(format.AsSpan(14));
        if (tag == Extensible && format.Length >= 26)
            tag = BinaryPrimitives.ReadUInt16LittleEndian(format.AsSpan(24));
        var bytes = (bits + 7) / 8;
        return (tag, bytes) switch
        {
            (Pcm, 1) => new(1, SampleKind.Unsigned, BigEndian: false),
            (Pcm, 2 or 3 or 4) => new(bytes, SampleKind.Signed, BigEndian: false),
            (IeeeFloat, 4 or 8) => new(bytes, SampleKind.Float, BigEndian: false),
            _ => null,
        };
    }
}
