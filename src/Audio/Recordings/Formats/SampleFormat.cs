using System.Buffers.Binary;

namespace Harkbook.Audio.Recordings.Formats;

/// <summary>How one sample stands in a file.</summary>
/// <param name="Bytes">1 to 8.</param>
/// <param name="Kind">Whole numbers (signed, or from 0 as 8-bit WAV has them) or floating point (4 or 8 bytes).</param>
internal readonly record struct SampleFormat(int Bytes, SampleKind Kind, bool BigEndian)
{
    public string Words => Kind == SampleKind.Float ? $"{8 * Bytes}-bit float" : $"{8 * Bytes}-bit";

    /// <summary>Turns samples into floats with full scale at ±1.</summary>
    /// <param name="bytes">Length·Bytes of the file.</param>
    public void Decode(ReadOnlySpan<byte> bytes, Span<float> samples)
    {
        for (var i = 0; i < samples.Length; i++)
            samples[i] = One(bytes.Slice(i * Bytes, Bytes));
    }

    private float One(ReadOnlySpan<byte> bytes) => (Kind, Bytes) switch
    {
        (SampleKind.Unsigned, 1) => (bytes[0] - 128) / 128f,
        (SampleKind.Float, 4) => BitConverter.Int32BitsToSingle(BigEndian ? BinaryPrimitives.ReadInt32BigEndian(bytes)
            : BinaryPrimitives.ReadInt32LittleEndian(bytes)),
        (SampleKind.Float, _) => (float)(BigEndian ? BinaryPrimitives.ReadDoubleBigEndian(bytes) : BinaryPrimitives.ReadDoubleLittleEndian(bytes)),
        _ => LeftAligned(bytes) / 2147483648f,
    };

    private int LeftAligned(ReadOnlySpan<byte> bytes)
    {
        var value = 0;
        for (var i = 0; i < bytes.Length; i++)
            value |= bytes[BigEndian ? i : bytes.Length - 1 - i] << (24 - 8 * i);
        return value;
    }
}

internal enum SampleKind
{
    Signed,
    Unsigned,
    Float,
}
