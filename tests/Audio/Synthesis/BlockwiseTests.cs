using Harkbook.Audio.Synthesis;
using Harkbook.Audio.Synthesis.Mixing;
using Harkbook.Audio.Synthesis.Strings;
using Harkbook.Units;

namespace Harkbook.Audio.Tests.Synthesis;

/// <summary>Sounded a block at a time, a long piece needs the room of a short one, and sounds as it does at once.</summary>
[Collection(nameof(Alone))]
public sealed class BlockwiseTests
{
    private static readonly SampleRate Cd = SampleRate.FromHertz(44_100);

    /// <summary>
    /// Three minutes of one channel are 31.8 MB of 32-bit samples. A note every four seconds on two strings; what is alive after a full
    /// collection, asked every 15 seconds, stays under a tenth of that.
    /// </summary>
    [Fact]
    public void ThreeMinutesAreSoundedInLittleRoom()
    {
        var length = Seconds.FromSeconds(180);
        Pluck[] plucks = [.. Enumerable.Range(0, 45)
            .Select(i => new Pluck(Seconds.FromSeconds(4 * i), Seconds.FromSeconds(4 * i + 0.5), Hertz.FromHertz(220), 0.6))];
        var before = GC.GetTotalMemory(forceFullCollection: true);
        var (most, samples, blocks) = (0L, 0L, 0);
        foreach (var block in new StringInstrument(Cd, StringSet.Nylon, 1).Blocks([plucks, plucks], length, TestContext.Current.CancellationToken))
        {
            samples += block.Length;
            if (blocks++ % 40 == 0)
                most = Math.Max(most, GC.GetTotalMemory(forceFullCollection: true) - before);
        }
        Assert.Equal(180 * 44_100, samples);
        Assert.InRange(most, 0, 3_180_000);
    }

    /// <summary>Notes that ring over the ends of blocks, overlap, begin before the sound and end behind it: as in one array.</summary>
    [Fact]
    public void NotesAddUpAsInOneArray()
    {
        const int Length = 5 * NoteBuffer.BlockLength + 77;
        (int Start, (int Start, int Count) Note)[] notes =
            [.. new[] { (-500, 900), (10, 40_000), (16_384, 1), (16_000, 50_000), (70_000, 20_000), (Length - 5, 100) }.Select(n => (n.Item1, n))];
        var expected = new float[Length];
        foreach (var (start, note) in notes)
        {
            for (var n = Math.Max(0, start); n < Math.Min(Length, start + note.Count); n++)
                expected[n] += n - start + 1;
        }
        var blocks = NoteBuffer.Blocks(Length, notes, (note, buffer) =>
        {
            var first = Math.Max(0, note.Start);
            var samples = buffer.Reach(first, note.Start + note.Count);
            for (var i = 0; i < samples.Length; i++)
                samples[i] += first + i - note.Start + 1;
        }, TestContext.Current.CancellationToken).ToArray();
        Assert.Equal(expected, blocks.SelectMany(b => b));
        Assert.All(blocks.SkipLast(1), b => Assert.Equal(NoteBuffer.BlockLength, b.Length));
    }

    /// <summary>
    /// The limiter as it is defined over the whole sound: a straight fall of 1 in 4 ms to each peak, then a rise that closes the gap by
    /// 1 − 1/e in 0.3 s. Loud places lie on and beside the ends of blocks.
    /// </summary>
    [Fact]
    public void TheLimiterTurnsDownAsOverTheWhole()
    {
        var samples = new float[50_000];
        foreach (var (at, level) in new[] { (0, 1.5f), (16_383, 2f), (16_384, 3f), (16_500, 1.2f), (32_700, 4f), (49_999, 2f) })
            samples[at] = level;
        for (var i = 0; i < samples.Length; i++)
            samples[i] += 0.4f * (float)Math.Sin(i * 0.05);
        var gain = samples.Select(s => Math.Min(1, 0.5 / Math.Max(1e-9, Math.Abs(s)))).ToArray();
        for (var i = gain.Length - 2; i >= 0; i--)
            gain[i] = Math.Min(gain[i], gain[i + 1] + 1 / (0.004 * 44_100));
        for (var i = 1; i < gain.Length; i++)
            gain[i] = Math.Min(gain[i], gain[i - 1] + (1 - Math.Exp(-1 / (0.3 * 44_100))) * (1 - gain[i - 1]));
        Assert.Equal(samples.Select((s, i) => (float)Math.Clamp(s * gain[i], -0.5, 0.5)), Limiter.Limit(new(Cd, samples), 0.5).Channels[0]);
    }
}
