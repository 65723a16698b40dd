using CsCheck;
using Harkbook.Audio.Recordings;
using Harkbook.Audio.Recordings.Formats;
using Harkbook.Audio.Signals;
using Harkbook.Audio.Tests.Signals;
using Harkbook.Units;
using NAudio.Wave;

namespace Harkbook.Audio.Tests.Recordings;

public class WaveFileTests
{
    // The head of a 16-bit mono file of 441 samples as ffmpeg 5.1 writes it with -bitexact; fields as in IBM and Microsoft,
    // Multimedia Programming Interface and Data Specifications 1.0 (1991).
    [Fact]
    public void HeadOfA16BitFileIsTheStandardOne()
    {
        var bytes = Written(Tones.Mono(44_100, new float[441]), WaveDepth.Bits16);
        Assert.Equal("5249464696030000574156" + "45666d7420100000000100010044ac000088580100020010006461746172030000", Convert.ToHexStringLower(bytes[..44]));
        Assert.Equal(926, bytes.Length);
    }

    // The same source for 24-bit stereo at 48 kHz: tag FFFE, 22 more bytes, mask 3, the PCM sub-format.
    [Fact]
    public void HeadOfA24BitFileIsExtensible()
    {
        var bytes = Written(new Signal(SampleRate.FromHertz(48_000), new float[10], new float[10]), WaveDepth.Bits24);
        Assert.Equal(
            "666d742028000000feff020080bb0000006504000600180016001800030000000100000000001000800000aa00389b71",
            Convert.ToHexStringLower(bytes[12..60]));
    }

    [Theory]
    [InlineData(WaveDepth.Bits16, 1 / 65536.0)]
    [InlineData(WaveDepth.Bits24, 1 / 16777216.0)]
    [InlineData(WaveDepth.Float32, 0)]
    public void WrittenSoundIsReadBack(WaveDepth depth, double tolerance)
    {
        using var folder = new TemporaryFolder();
        var signal = new Signal(SampleRate.FromHertz(48_000),
            [.. Enumerable.Range(1, 3).Select(seed => Tones.Noise(seed, 40_001).Select(s => 0.9f * s).ToArray())]);
        WaveFile.Write(folder.File("a.wav"), signal, depth);
        var back = WaveFile.Read(folder.File("a.wav"));
        Assert.Equal((signal.Rate, 3, signal.Length), (back.Rate, back.Channels.Count, back.Length));
        for (var c = 0; c < 3; c++)
            Assert.All(signal.Channels[c].Zip(back.Channels[c]), pair => Assert.Equal(pair.First, pair.Second, tolerance + 1e-9));
        Assert.Equal(["a.wav"], folder.Names);
    }

    // NAudio 3.3 as an independent reader.
    [Theory]
    [InlineData(WaveDepth.Bits16)]
    [InlineData(WaveDepth.Bits24)]
    [InlineData(WaveDepth.Float32)]
    public void AnotherReaderHearsTheSame(WaveDepth depth)
    {
        using var folder = new TemporaryFolder();
        var samples = Tones.Sine(440, 44_100, 1000, 0.5);
        WaveFile.Write(folder.File("a.wav"), Tones.Mono(44_100, samples), depth);
        using var reader = new WaveFileReader(folder.File("a.wav"));
        Assert.Equal((44_100, 1), (reader.WaveFormat.SampleRate, reader.WaveFormat.Channels));
        var read = new float[1001];
        Assert.Equal(1000, reader.ToSampleProvider().Read(read));
        Assert.All(samples.Zip(read), pair => Assert.Equal(pair.First, pair.Second, 1 / 65536.0 + 1e-7));
    }

    [Fact]
    public void LoudSamplesAreClippedNotWrapped()
    {
        using var folder = new TemporaryFolder();
        WaveFile.Write(folder.File("a.wav"), Tones.Mono(44_100, [2, -2, 1, -1]));
        Assert.Equal([32767 / 32768f, -1, 32767 / 32768f, -1], WaveFile.Read(folder.File("a.wav")).Channels[0]);
    }

    // Values by the formats' definitions: full scale is the most negative whole number; 8-bit WAV counts from 128.
    [Theory]
    [InlineData(8, 1, "00 80 C0", new[] { -1f, 0, 0.5f })]
    [InlineData(16, 1, "0080 0000 0040", new[] { -1f, 0, 0.5f })]
    [InlineData(24, 1, "000080 000000 000040", new[] { -1f, 0, 0.5f })]
    [InlineData(32, 1, "00000080 00000000 00000040", new[] { -1f, 0, 0.5f })]
    [InlineData(32, 3, "000080BF 00000000 0000003F", new[] { -1f, 0, 0.5f })]
    [InlineData(64, 3, "000000000000F0BF 0000000000000000 000000000000E03F", new[] { -1f, 0, 0.5f })]
    public void EveryDepthOfWaveIsUnderstood(int bits, int tag, string hex, float[] expected)
    {
        using var folder = new TemporaryFolder();
        var path = folder.File("a.wav", Bytes.Wave(44_100, 1, bits, tag, Convert.FromHexString(hex.Replace(" ", ""))));
        Assert.Equal(expected, WaveFile.Read(path).Channels[0]);
    }

    [Theory]
    [InlineData("AIFF", 8, "", "80 00 40", new[] { -1f, 0, 0.5f })]
    [InlineData("AIFF", 16, "", "8000 0000 4000", new[] { -1f, 0, 0.5f })]
    [InlineData("AIFF", 24, "", "800000 000000 400000", new[] { -1f, 0, 0.5f })]
    [InlineData("AIFC", 16, "NONE", "8000 0000 4000", new[] { -1f, 0, 0.5f })]
    [InlineData("AIFC", 16, "sowt", "0080 0000 0040", new[] { -1f, 0, 0.5f })]
    [InlineData("AIFC", 32, "fl32", "BF800000 00000000 3F000000", new[] { -1f, 0, 0.5f })]
    [InlineData("AIFC", 64, "fl64", "BFF0000000000000 0000000000000000 3FE0000000000000", new[] { -1f, 0, 0.5f })]
    public void EveryDepthOfAiffIsUnderstood(string kind, int bits, string coding, string hex, float[] expected)
    {
        using var folder = new TemporaryFolder();
        var path = folder.File("a.aiff", Bytes.Aiff(kind, 1, bits, 3, Convert.FromHexString(hex.Replace(" ", "")), coding));
        var signal = WaveFile.Read(path);
        Assert.Equal(44_100, signal.Rate.Hertz);
        Assert.Equal(expected, signal.Channels[0]);
    }

    // RIFF: chunks are padded to even lengths, and unknown ones are skipped.
    [Fact]
    public void UnknownAndOddChunksAreSkipped()
    {
        using var folder = new TemporaryFolder();
        byte[] odd = [.. Bytes.Ascii("note"), .. Bytes.Little(3), 1, 2, 3, 0];
        var path = folder.File("a.wav", Bytes.Wave(44_100, 1, 16, 1, [0, 64], before: odd));
        Assert.Equal([0.5f], WaveFile.Read(path).Channels[0]);
    }

    // A recorder that lost power leaves the size at 0 or at FFFFFFFF (common practice): what is there counts.
    [Theory]
    [InlineData(0u)]
    [InlineData(0xFFFFFFFFu)]
    [InlineData(0x7FFFFFDBu)]
    public void UnfinishedSizeMeansAllThatIsThere(uint size)
    {
        using var folder = new TemporaryFolder();
        var path = folder.File("a.wav", Bytes.Wave(44_100, 1, 16, 1, [0, 64, 0, 64], dataSize: size));
        Assert.Equal([0.5f, 0.5f], WaveFile.Read(path).Channels[0]);
    }

    // RF64 (EBU Tech 3306, ITU-R BS.2088): the sizes stand in a ds64 chunk as 64-bit numbers, and the data chunk says FFFFFFFF.
    [Fact]
    public void LongFilesWith64BitSizesAreUnderstood()
    {
        using var folder = new TemporaryFolder();
        byte[] sizes = [.. Bytes.Ascii("ds64"), .. Bytes.Little(28), .. new byte[8], 4, 0, 0, 0, 0, 0, 0, 0, .. new byte[12]];
        var file = Bytes.Wave(44_100, 1, 16, 1, [0, 64, 0, 192, 99, 99], dataSize: 0xFFFFFFFF, before: sizes);
        Bytes.Ascii("RF64").CopyTo(file, 0);
        Assert.Equal([0.5f, -0.5f], WaveFile.Read(folder.File("a.wav", file)).Channels[0]);
    }

    // Whatever bytes a file holds, it is read or refused in words; nothing else happens.
    [Fact]
    public void DamagedFilesAreReadOrRefusedInWords()
    {
        using var folder = new TemporaryFolder();
        byte[][] whole = [Bytes.Wave(44_100, 2, 24, 1, new byte[60]), Bytes.Aiff("AIFC", 1, 16, 30, new byte[60], "sowt")];
        Gen.Select(Gen.Int[0, 1], Gen.Select(Gen.Int[0, 80], Gen.Byte).List[1, 4], Gen.Int[0, 104]).Sample((kind, changes, length) =>
        {
            var bytes = whole[kind].ToArray();
            foreach (var (at, value) in changes)
                bytes[at] = value;
            var path = folder.File($"{Guid.NewGuid():N}", bytes[..Math.Min(length, bytes.Length)]);
            try
            {
                return WaveFile.Read(path).Length <= bytes.Length;
            }
            catch (RecordingException e)
            {
                return e.Message.Contains(path, StringComparison.Ordinal);
            }
        }, iter: 2000, threads: 1, seed: "0001WVgVc5y2");
    }

    private static byte[] Written(Signal signal, WaveDepth depth)
    {
        using var stream = new MemoryStream();
        WaveFile.Write(stream, signal, depth);
        return stream.ToArray();
    }
}
