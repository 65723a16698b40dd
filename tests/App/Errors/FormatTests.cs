using System.Globalization;
using System.Text.RegularExpressions;
using Harkbook.Audio.Tests.Recordings;

namespace Harkbook.App.Tests.Errors;

/// <summary>Unusual but sound files are listened to: each holds a tone of 440 Hz, and that is what must be heard.</summary>
public class FormatTests
{
    [Theory]
    [InlineData("16-bit, 1 channel, 8000 Hz", 8000, 1, 16, 1)]
    [InlineData("16-bit, 2 channels, 44100 Hz", 44_100, 2, 16, 1)]
    [InlineData("16-bit, 1 channel, 96000 Hz", 96_000, 1, 16, 1)]
    [InlineData("16-bit, 6 channels, 48000 Hz", 48_000, 6, 16, 1)]
    [InlineData("8-bit, 1 channel, 22050 Hz", 22_050, 1, 8, 1)]
    [InlineData("24-bit, 1 channel, 44100 Hz", 44_100, 1, 24, 1)]
    [InlineData("32-bit float, 2 channels, 48000 Hz", 48_000, 2, 32, 3)]
    public async Task AToneOf440IsHeard(string words, int rate, int channels, int bits, int tag)
    {
        using var scene = new Scene();
        scene.File("a.wav", Bytes.Wave(rate, channels, bits, tag, [.. Enumerable.Range(0, 2 * rate).SelectMany(n => Frame(n, rate, channels, bits, tag))]));
        var ran = await Launch.RunAsync(scene, "listen", "a.wav");
        Assert.Equal(0, ran.ExitCode);
        Assert.Empty(ran.Complaints);
        Assert.Contains(words, ran.Output);
        var heard = double.Parse(Regex.Match(ran.Output, @"A4 = ([\d.]+) Hz").Groups[1].Value, CultureInfo.InvariantCulture);
        Assert.Equal(440, heard, 0.5);
    }

    private static IEnumerable<byte> Frame(int n, int rate, int channels, int bits, int tag)
    {
        var value = 0.5 * Math.Sin(2 * Math.PI * 440 * n / rate);
        byte[] sample = (tag, bits) switch
        {
            (3, _) => BitConverter.GetBytes((float)value),
            (_, 8) => [(byte)(128 + Math.Round(127 * value))],
            (_, 16) => Bytes.Little16((short)Math.Round(32767 * value)),
            _ => Bytes.Little((int)Math.Round(8_388_607 * value))[..3],
        };
        return Enumerable.Repeat(sample, channels).SelectMany(b => b);
    }
}
