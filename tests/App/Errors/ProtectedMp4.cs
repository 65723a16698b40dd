using Harkbook.Audio.Tests.Recordings;

namespace Harkbook.App.Tests.Errors;

/// <summary>
/// An MP4 of one sound track whose sample entry is another than 'mp4a', put together box by box (ISO/IEC 14496-12:2015, chapter 8):
/// 'enca' is the standard's protected sound, 'drms' that of bought music (common practice).
/// </summary>
internal static class ProtectedMp4
{
    private static readonly byte[] Identity =
        [.. Bytes.Big(0x10000), .. new byte[12], .. Bytes.Big(0x10000), .. new byte[12], .. Bytes.Big(0x40000000)];

    public static byte[] Of(string sampleEntry) =>
        [.. Box("ftyp", Bytes.Ascii("M4A "), Bytes.Big(0), Bytes.Ascii("M4A isom")), .. Box("moov", MovieHead(), Track(sampleEntry)),
            .. Box("mdat", new byte[64])];

    private static byte[] MovieHead() =>
        Full("mvhd", Bytes.Big(0), Bytes.Big(0), Bytes.Big(44_100), Bytes.Big(88_200), Bytes.Big(0x10000), Bytes.Big16(0x100), new byte[10], Identity,
            new byte[24], Bytes.Big(2));

    private static byte[] Track(string sampleEntry) => Box("trak",
        Full("tkhd", Bytes.Big(0), Bytes.Big(0), Bytes.Big(1), Bytes.Big(0), Bytes.Big(88_200), new byte[12], Bytes.Big16(0x100), new byte[2],
            Identity, new byte[8]),
        Box("mdia",
            Full("mdhd", Bytes.Big(0), Bytes.Big(0), Bytes.Big(44_100), Bytes.Big(88_200), Bytes.Big16(0x55C4), Bytes.Big16(0)),
            Full("hdlr", Bytes.Big(0), Bytes.Ascii("soun"), new byte[12], new byte[1]),
            Box("minf", Full("smhd", new byte[4]), Box("dinf", Full("dref", Bytes.Big(1), Box("url ", [0, 0, 0, 1]))), SampleTable(sampleEntry))));

    private static byte[] SampleTable(string sampleEntry) => Box("stbl",
        Full("stsd", Bytes.Big(1), Box(sampleEntry, new byte[6], Bytes.Big16(1), new byte[8], Bytes.Big16(2), Bytes.Big16(16), new byte[4],
            Bytes.Big16(44_100), new byte[2])),
        Full("stts", Bytes.Big(1), Bytes.Big(1), Bytes.Big(88_200)),
        Full("stsc", Bytes.Big(1), Bytes.Big(1), Bytes.Big(1), Bytes.Big(1)),
        Full("stsz", Bytes.Big(64), Bytes.Big(1)),
        Full("stco", Bytes.Big(1), Bytes.Big(36)));

    /// <summary>A box with version 0 and no flags.</summary>
    private static byte[] Full(string kind, params byte[][] parts) => Box(kind, [new byte[4], .. parts]);

    private static byte[] Box(string kind, params byte[][] parts)
    {
        byte[] content = [.. parts.SelectMany(p => p)];
        return [.. Bytes.Big(8 + content.Length), .. Bytes.Ascii(kind), .. content];
    }
}
