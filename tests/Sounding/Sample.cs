using Harkbook.Audio.Signals;
using Harkbook.Music.Songs;

namespace Harkbook.Sounding.Tests;

/// <summary>Songs to sound, and measurements by plain sums.</summary>
internal static class Sample
{
    public static Song Song(string text)
    {
        var document = SongText.Parse(text, "sample.hark");
        return document.Song ?? throw new FormatException(string.Join("\n", document.Diagnostics));
    }

    /// <summary>Amplitude of a sine at a frequency over a stretch (seconds), Hann-windowed.</summary>
    public static double Level(Signal signal, int channel, double from, double length, double frequency)
    {
        var (start, count) = ((int)(from * signal.Rate.Hertz), (int)(length * signal.Rate.Hertz));
        var (re, im, w) = (0.0, 0.0, 2 * Math.PI * frequency / signal.Rate.Hertz);
        for (var i = 0; i < count; i++)
        {
            var x = signal.Channels[channel][start + i] * (1 - Math.Cos(2 * Math.PI * i / count));
            re += x * Math.Cos(w * i);
            im += x * Math.Sin(w * i);
        }
        return 2 * Math.Sqrt(re * re + im * im) / count;
    }

    /// <summary>Cents by which the strongest sine near a frequency lies above it, to a tenth.</summary>
    public static double CentsAbove(Signal signal, int channel, double from, double length, double frequency) =>
        Enumerable.Range(-400, 801).Select(i => i / 10.0).MaxBy(c => Level(signal, channel, from, length, frequency * Math.Pow(2, c / 1200)));

    /// <summary>When a channel first exceeds a level after a time, in seconds; −1 if never.</summary>
    public static double FirstOver(Signal signal, int channel, double after, double level)
    {
        var at = Array.FindIndex(signal.Channels[channel], (int)(after * signal.Rate.Hertz), x => Math.Abs(x) > level);
        return at < 0 ? -1 : (double)at / signal.Rate.Hertz;
    }
}
