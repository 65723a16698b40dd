using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Synthesis;

/// <summary>A sound with its place in a mix.</summary>
/// <param name="Decibels">Gain.</param>
/// <param name="Pan">−1 left to 1 right, at equal power; a sound of two channels is balanced instead.</param>
public sealed record Track(Signal Sound, double Decibels = 0, double Pan = 0);

/// <summary>Adds tracks into two channels at a safe level.</summary>
public static class Mixer
{
    /// <summary>The sum of the tracks, as long as the longest, not yet limited.</summary>
    public static Signal Sum(SampleRate rate, IReadOnlyCollection<Track> tracks)
    {
        if (tracks.FirstOrDefault(t => t.Sound.Rate != rate) is { } stranger)
            throw new ArgumentException($"The mix runs at {rate}, one track at {stranger.Sound.Rate}; resample it first.", nameof(tracks));
        var length = tracks.Count == 0 ? 0 : tracks.Max(t => t.Sound.Length);
        var (left, right) = (new float[length], new float[length]);
        foreach (var track in tracks)
        {
            var (toLeft, toRight) = Gains(track);
            Add(track.Sound.Channels[0], toLeft, left);
            Add(track.Sound.Channels[^1], toRight, right);
        }
        return new(rate, left, right);
    }

    /// <summary>Brings a sound to a loudness, its true peaks held under <see cref="EvenLevel.Ceiling"/>. Silence stays silent.</summary>
    public static Signal Master(Signal mix, Loudness target)
    {
        var ceiling = Factor(EvenLevel.Ceiling);
        var limited = Limiter.Limit(mix, ceiling);
        var gain = 0.0;
        for (var i = 0; i < 4 && LoudnessMeter.Integrated(limited) is { } now && Math.Abs(now.Lufs - target.Lufs) > 0.05; i++)
        {
            gain += target.Lufs - now.Lufs;
            limited = Limiter.Limit(Scaled(mix, Factor(gain)), ceiling);
        }
        var over = LoudnessMeter.TruePeak(limited) - EvenLevel.Ceiling;
        return over > 0 ? Scaled(limited, Factor(-over)) : limited;
    }

    private static double Factor(double decibels) => Math.Pow(10, decibels / 20);

    private static Signal Scaled(Signal signal, double gain) =>
        new(signal.Rate, [.. signal.Channels.Select(c => c.Select(x => (float)(x * gain)).ToArray())]);

    private static (double Left, double Right) Gains(Track track)
    {
        var level = Factor(track.Decibels);
        var angle = (Math.Clamp(track.Pan, -1, 1) + 1) * Math.PI / 4;
        return track.Sound.Channels.Count == 1
            ? (level * Math.Cos(angle), level * Math.Sin(angle))
            : (level * Math.Min(1, 1 - track.Pan), level * Math.Min(1, 1 + track.Pan));
    }

    private static void Add(float[] from, double gain, float[] to)
    {
        for (var i = 0; i < from.Length; i++)
            to[i] += (float)(gain * from[i]);
    }
}
