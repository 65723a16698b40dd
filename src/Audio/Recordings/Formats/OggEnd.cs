namespace Harkbook.Audio.Recordings.Formats;

/// <summary>
/// Sees whether an Ogg file ends in the middle of a page (RFC 3533, section 6). The format keeps no length, so a decoder
/// takes a file that was cut short for a shorter song.
/// </summary>
internal static class OggEnd
{
    private const int HeadBytes = 27, MostPageBytes = HeadBytes + 255 + 255 * 255;

    /// <summary>True for an Ogg file whose last page reaches past the file's end; false for whole files and all others.</summary>
    public static bool IsCut(Stream stream)
    {
        var first = new byte[4];
        stream.Position = 0;
        if (stream.ReadAtLeast(first, 4, throwOnEndOfStream: false) < 4 || !first.AsSpan().SequenceEqual("OggS"u8))
            return false;
        var tail = new byte[Math.Min(stream.Length, MostPageBytes)];
        stream.Position = stream.Length - tail.Length;
        stream.ReadExactly(tail);
        // The capture pattern and version 0, which every page starts with.
        var last = tail.AsSpan().LastIndexOf("OggS\0"u8);
        return last < 0 || PageReachesPast(tail.AsSpan(last));
    }

    private static bool PageReachesPast(ReadOnlySpan<byte> page)
    {
        if (page.Length < HeadBytes || page.Length < HeadBytes + page[HeadBytes - 1])
            return true;
        int segments = page[HeadBytes - 1];
        var length = HeadBytes + segments;
        foreach (var segment in page.Slice(HeadBytes, segments))
            length += segment;
        return length > page.Length;
    }
}
