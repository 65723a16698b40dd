using System.Text;

namespace Harkbook.Audio.Tests.Recordings;

/// <summary>Sound files put together by hand, byte by byte, so that the readers are tested on something that the writers didn't make.</summary>
internal static class Bytes
{
    public static byte[] Wave(int rate, int channels, int bits, int tag, byte[] samples, uint? dataSize = null, byte[]? before = null) =>
    [
        .. Ascii("RIFF"), .. Little(36 + samples.Length), .. Ascii("WAVE"), .. before ?? [],
        .. Ascii("fmt "), .. Little(16), .. Little16(tag), .. Little16(channels), .. Little(rate),
        .. Little(rate * channels * bits / 8), .. Little16(channels * bits / 8), .. Little16(bits),
        .. Ascii("data"), .. LittleUnsigned(dataSize ?? (uint)samples.Length), .. samples,
    ];

    /// <summary>AIFF (kind "AIFF") or AIFF-C (kind "AIFC", with a coding). The rate is 44 100 Hz: 0x400E AC44 0000 0000 0000 as an 80-bit number.</summary>
    public static byte[] Aiff(string kind, int channels, int bits, int frames, byte[] samples, string coding = "")
    {
        byte[] common =
        [
            .. Big16(channels), .. Big(frames), .. Big16(bits), .. Convert.FromHexString("400EAC44000000000000"),
            .. coding.Length > 0 ? Ascii(coding) : [], .. coding.Length > 0 ? new byte[2] : [],
        ];
        return
        [
            .. Ascii("FORM"), .. Big(4 + 8 + common.Length + 16 + samples.Length), .. Ascii(kind),
            .. Ascii("COMM"), .. Big(common.Length), .. common,
            .. Ascii("SSND"), .. Big(8 + samples.Length), .. Big(0), .. Big(0), .. samples,
        ];
    }

    public static byte[] Ascii(string text) => Encoding.ASCII.GetBytes(text);

    public static byte[] Little(int value) => LittleUnsigned((uint)value);

    public static byte[] LittleUnsigned(uint value) => [(byte)value, (byte)(value >> 8), (byte)(value >> 16), (byte)(value >> 24)];

    public static byte[] Little16(int value) => [(byte)value, (byte)(value >> 8)];

    public static byte[] Big(int value) => [.. Little(value).Reverse()];

    public static byte[] Big16(int value) => [.. Little16(value).Reverse()];

    public static byte[] Floats(params float[] values) => [.. values.SelectMany(BitConverter.GetBytes)];

    /// <summary>16-bit samples of a 440 Hz tone at half of full scale.</summary>
    public static byte[] Tone16(int rate, double seconds) =>
        [.. Enumerable.Range(0, (int)(rate * seconds)).SelectMany(n => Little16((short)Math.Round(16384 * Math.Sin(2 * Math.PI * 440 * n / rate))))];
}
