using System.Buffers.Binary;
using Harkbook.Audio.Signals;

namespace Harkbook.Audio.Recordings.Formats;

/// <summary>The bytes of a WAV file before its samples.</summary>
internal static class WaveHead
{
    /// <summary>The last 14 bytes of the extensible format's GUIDs (KSDATAFORMAT_SUBTYPE_PCM and _IEEE_FLOAT).</summary>
    private static readonly byte[] subFormatTail = Convert.FromHexString("000000001000800000aa00389b71");

    public static int BytesOf(WaveDepth depth) => depth switch
    {
        WaveDepth.Bits16 => 2,
        WaveDepth.Bits24 => 3,
        WaveDepth.Float32 => 4,
        _ => throw new ArgumentOutOfRangeException(nameof(depth), depth, "No such depth of a WAV file."),
    };

    public static byte[] Of(ISound signal, WaveDepth depth)
    {
        var format = Format(signal, depth);
        var data = (long)signal.Length * signal.ChannelCount * BytesOf(depth);
        var riff = 4 + 8 + format.Length + 8 + data + data % 2;
        if (riff > uint.MaxValue)
            throw new ArgumentException($"A WAV file holds at most 4 GB and this signal needs {riff / 1_000_000_000.0:0.0} GB; write it in parts.",
                nameof(signal));
        return [.. "RIFF"u8, .. Four(riff), .. "WAVEfmt "u8, .. Four(format.Length), .. format, .. "data"u8, .. Four(data)];
    }

    private static byte[] Format(ISound signal, WaveDepth depth)
    {
        var (channels, bytes) = (signal.ChannelCount, BytesOf(depth));
        var extensible = depth == WaveDepth.Bits24 || channels > 2;
        var tag = depth == WaveDepth.Float32 ? 3 : 1;
        byte[] head =
        [
            .. Two(extensible ? 0xFFFE : tag), .. Two(channels), .. Four(signal.Rate.Hertz),
            .. Four((long)signal.Rate.Hertz * channels * bytes), .. Two(channels * bytes), .. Two(8 * bytes),
        ];
        return extensible ? [.. head, .. Two(22), .. Two(8 * bytes), .. Four(Speakers(channels)), .. Two(tag), .. subFormatTail] : head;
    }

    /// <summary>The speaker mask: front centre for one channel, else the first so many speakers of the format's list; none beyond 18.</summary>
    private static long Speakers(int channels) => channels switch { 1 => 4, <= 18 => (1L << channels) - 1, _ => 0 };

    private static byte[] Two(int value)
    {
        var bytes = new byte[2];
        BinaryPrimitives.WriteUInt16LittleEndian(bytes, (ushort)value);
        return bytes;
    }

    private static byte[] Four(long value)
    {
        var bytes = new byte[4];
        BinaryPrimitives.WriteUInt32LittleEndian(bytes, (uint)value);
        return bytes;
    }
}
