using Harkbook.Audio.Recordings.Samples;
using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Synthesis.Mixing;

/// <summary>A sound with its place in a mix.</summary>
/// <param name="Decibels">Gain.</param>
/// <param name="Pan">−1 left to 1 right, at equal power; a sound of two channels is balanced instead.</param>
public sealed record Track(ISound Sound, double Decibels = 0, double Pan = 0);

/// <summary>Adds tracks into two channels at a safe level. Sound of any length is mixed in the room of a block.</summary>
public static class Mixer
{
    private const int BlockLength = 1 << 14;

    /// <summary>The sum of the tracks in memory, as long as the longest, not yet limited.</summary>
    public static Signal Sum(SampleRate rate, IReadOnlyCollection<Track> tracks) => Blocks(rate, tracks).Gathered(rate, 2);

    /// <summary>The same on the disk.</summary>
    public static StoredSound Store(SampleRate rate, IReadOnlyCollection<Track> tracks) => StoredSound.Of(rate, Blocks(rate, tracks));

    /// <summary>Brings a sound to a loudness, its true peaks held under <see cref="EvenLevel.Ceiling"/>. Silence stays silent.</summary>
    public static Signal Master(Signal mix, Loudness target) => Mastered(mix, target, CancellationToken.None).Gathered(mix.Rate, mix.ChannelCount);

    /// <summary>The same on the disk.</summary>
    public static StoredSound StoreMaster(ISound mix, Loudness target, CancellationToken ct) => StoredSound.Of(mix.Rate, Mastered(mix, target, ct));

    /// <summary>Listens through the sound as often as it takes to find its gain, then gives it in blocks.</summary>
    private static IEnumerable<float[][]> Mastered(ISound mix, Loudness target, CancellationToken ct)
    {
        var ceiling = Factor(EvenLevel.Ceiling);
        var gain = 0.0;
        for (var i = 0; i < 4 && LoudnessMeter.Integrated(mix.Rate, Limited()) is { } now && Math.Abs(now.Lufs - target.Lufs) > 0.05; i++)
            gain += target.Lufs - now.Lufs;
        var over = LoudnessMeter.TruePeak(mix.Rate, Limited()) - EvenLevel.Ceiling;
        return over > 0 ? Limited().Select(block => Scaled(block, Factor(-over))) : Limited();

        IEnumerable<float[][]> Limited() => Limiter.Blocks(mix, Factor(gain), ceiling).Select(block =>
        {
            ct.ThrowIfCancellationRequested();
            return block;
        });
    }

    private static IEnumerable<float[][]> Blocks(SampleRate rate, IReadOnlyCollection<Track> tracks)
    {
        if (tracks.FirstOrDefault(t => t.Sound.Rate != rate) is { } stranger)
            throw new ArgumentException($"The mix runs at {rate}, one track at {stranger.Sound.Rate}; resample it first.", nameof(tracks));
        return Summed(tracks, tracks.Count == 0 ? 0 : tracks.Max(t => t.Sound.Length));
    }

    private static IEnumerable<float[][]> Summed(IReadOnlyCollection<Track> tracks, int length)
    {
        var read = new float[BlockLength];
        for (var start = 0; start < length; start += BlockLength)
        {
            float[][] sum = [new float[Math.Min(BlockLength, length - start)], new float[Math.Min(BlockLength, length - start)]];
            foreach (var track in tracks)
            {
                var (toLeft, toRight) = Gains(track);
                Add(track.Sound, 0, start, toLeft, sum[0], read);
                Add(track.Sound, track.Sound.ChannelCount - 1, start, toRight, sum[1], read);
            }
            yield return sum;
        }
        if (length == 0)
            yield return [[], []];
    }

    private static double Factor(double decibels) => Math.Pow(10, decibels / 20);

    private static float[][] Scaled(float[][] block, double gain) => [.. block.Select(c => c.Select(x => (float)(x * gain)).ToArray())];

    private static (double Left, double Right) Gains(Track track)
    {
        var level = Factor(track.Decibels);
        var angle = (Math.Clamp(track.Pan, -1, 1) + 1) * Math.PI / 4;
        return track.Sound.ChannelCount == 1
            ? (level * Math.Cos(angle), level * Math.Sin(angle))
            : (level * Math.Min(1, 1 - track.Pan), level * Math.Min(1, 1 + track.Pan));
    }

    private static void Add(ISound from, int channel, int start, double gain, float[] to, float[] read)
    {
        var samples = read.AsSpan(0, to.Length);
        from.Read(channel, start, samples);
        for (var i = 0; i < to.Length; i++)
            to[i] += (float)(gain * samples[i]);
    }
}
