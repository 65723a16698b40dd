using System.Buffers.Binary;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Audio.Signals;

namespace Harkbook.Audio.Recordings.Formats;

/// <summary>Reads WAV files into memory and writes sound of any length to them; for recordings that a person brings, use <see
/// cref="RecordingReader"/>.</summary>
public static class WaveFile
{
    private const int BlockFrames = 1 << 14;

    /// <summary>Writes the whole file or none of it.</summary>
    public static void Write(string path, ISound sound, WaveDepth depth = WaveDepth.Bits16) =>
        AtomicFile.Write(path, stream => Write(stream, sound, depth));

    /// <summary>24-bit files and those of more than two channels get the extensible format, as the format's rules ask.</summary>
    public static void Write(Stream stream, ISound sound, WaveDepth depth)
    {
        stream.Write(WaveHead.Of(sound, depth));
        var bytes = WaveHead.BytesOf(depth);
        var block = new byte[BlockFrames * sound.ChannelCount * bytes];
        for (var start = 0; start < sound.Length; start += BlockFrames)
        {
            var filled = Fill(block, sound.Cut(start, Math.Min(BlockFrames, sound.Length - start)), depth);
            stream.Write(block, 0, filled);
        }
        if ((long)sound.Length * sound.ChannelCount * bytes % 2 == 1)
            stream.WriteByte(0);
    }

    /// <summary>The whole file with all its channels at its own rate.</summary>
    /// <exception cref="RecordingException">Not a WAV file of plain samples, or cut short.</exception>
    public static Signal Read(string path)
    {
        using var source = PcmSource.Open(path);
        var channels = Enumerable.Range(0, source.Channels).Select(_ => new float[source.Layout.Frames]).ToArray();
        var frame = 0;
        for (var block = source.Read(); block.Length > 0; block = source.Read())
        {
            for (var i = 0; i < block.Length; i++)
                channels[i % channels.Length][frame + i / channels.Length] = block[i];
            frame += block.Length / channels.Length;
        }
        return new(source.Rate, channels);
    }

    private static int Fill(byte[] block, Signal signal, WaveDepth depth)
    {
        var (at, bytes) = (0, WaveHead.BytesOf(depth));
        for (var frame = 0; frame < signal.Length; frame++)
        {
            foreach (var channel in signal.Channels)
            {
                Put(block.AsSpan(at, bytes), channel[frame], depth);
                at += bytes;
            }
        }
        return at;
    }

    private static void Put(Span<byte> bytes, float sample, WaveDepth depth)
    {
        switch (depth)
        {
            case WaveDepth.Bits16:
                BinaryPrimitives.WriteInt16LittleEndian(bytes, (short)Whole(sample, 32768));
                break;
            case WaveDepth.Bits24:
                var whole = Whole(sample, 8388608);
                (bytes[0], bytes[1], bytes[2]) = ((byte)whole, (byte)(whole >> 8), (byte)(whole >> 16));
                break;
            default:
                BinaryPrimitives.WriteSingleLittleEndian(bytes, sample);
                break;
        }
    }

    private static int Whole(float sample, int fullScale) =>
        (int)Math.Clamp(Math.Round((double)sample * fullScale), -fullScale, fullScale - 1);
}
