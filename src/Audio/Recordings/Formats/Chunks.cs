using System.Buffers.Binary;
using System.Text;

namespace Harkbook.Audio.Recordings.Formats;

/// <summary>Walks the chunks of a RIFF or IFF file: four letters, a size, then that many bytes padded to an even number.</summary>
internal sealed class Chunks(Stream stream, bool bigEndian)
{
    private long next = 12;

    public string Id { get; private set; } = "";

    /// <summary>Bytes as the chunk's head says.</summary>
    public long Size { get; private set; }

    /// <summary>The first byte of the chunk's content.</summary>
    public long Start { get; private set; }

    public bool Next()
    {
        Span<byte> head = stackalloc byte[8];
        stream.Position = Math.Min(next, stream.Length);
        if (stream.ReadAtLeast(head, 8, throwOnEndOfStream: false) < 8)
            return false;
        Id = Encoding.Latin1.GetString(head[..4]);
        Size = bigEndian ? BinaryPrimitives.ReadUInt32BigEndian(head[4..]) : BinaryPrimitives.ReadUInt32LittleEndian(head[4..]);
        Start = stream.Position;
        next = Start + Size + Size % 2;
        return true;
    }

    /// <summary>The content's first bytes; fewer when the chunk or the file is shorter.</summary>
    public byte[] Read(int most)
    {
        stream.Position = Start;
        var content = new byte[Math.Max(0, Math.Min(Math.Min(Size, most), stream.Length - Start))];
        stream.ReadExactly(content);
        return content;
    }
}
