using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>All strands of a recording. Only strands are kept, never spectra, so memory grows slowly with length.</summary>
internal static class SecondInstrumentScan
{
    public const int HopSamples = 256;
    public const double FramesPerSecond = 22_050.0 / HopSamples;
    private const int Block = 512;

    public static SampleRate Rate { get; } = SampleRate.FromHertz(22_050);

    public static Seconds Hop { get; } = Rate.TimeOf(HopSamples);

    /// <param name="sound">At <see cref="Rate"/>; channels beyond the second are not heard.</param>
    public static List<Strand> Strands(ISound sound, Hertz a4, IProgress<double>? progress, CancellationToken ct)
    {
        if (sound.Rate != Rate)
            throw new ArgumentException($"Strands are found at {Rate}; this signal is at {sound.Rate}. Resample it first.", nameof(sound));
        var frames = 1 + sound.Length / HopSamples;
        var follower = new StrandFollower();
        var tones = new Tone[Block][];
        var piece = new Signal(Rate, [.. Enumerable.Range(0, Math.Min(2, sound.ChannelCount)).Select(_ => new float[Block * HopSamples + PartialReader.Size])]);
        for (var first = 0; first < frames; first += Block)
        {
            var count = Math.Min(Block, frames - first);
            for (var c = 0; c < piece.ChannelCount; c++)
                sound.Read(c, first * HopSamples - PartialReader.Size / 2, piece.Channels[c]);
            Parallel.For(0, count, new ParallelOptions { CancellationToken = ct }, () => (new PartialReader(), new ToneFinder(a4.Value), new PartialFrame(), new Tone[ToneFinder.Most]), (f, _, work) =>
            {
                work.Item1.Read(piece, PartialReader.Size / 2 + f * HopSamples, work.Item3);
                var found = work.Item2.Find(work.Item3, work.Item4);
                tones[f] = work.Item4[..found];
                return work;
            }, _ => { });
            for (var f = 0; f < count; f++)
                follower.Follow(tones[f]);
            progress?.Report((double)(first + count) / frames);
        }
        return follower.Finish();
    }
}
