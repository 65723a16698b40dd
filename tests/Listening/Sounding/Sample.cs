using Harkbook.Audio.Signals;
using Harkbook.Listening.Sounding.Performance;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Tests.Sounding;

/// <summary>Songs to sound, and measurements by plain sums.</summary>
internal static class Sample
{
    public static Song Song(string text)
    {
        var document = SongText.Parse(text, "sample.hark");
        return document.Song ?? throw new FormatException(string.Join("\n", document.Diagnostics));
    }

    /// <summary>The made-up songs of the songbook with how they are played.</summary>
    public static IEnumerable<(string Name, Song Song, DemoPerformance Performance)> Songbook()
    {
        foreach (var folder in Directory.GetDirectories(Path.Combine(Root(), "docs", "examples", "songbook")).Order())
        {
            var name = Path.GetFileName(folder);
            var document = SongText.Parse(File.ReadAllText(Path.Combine(folder, name + ".hark")), name);
            Assert.Empty(document.Diagnostics);
            yield return (name, document.Song!, DemoPerformance.Parse(File.ReadAllText(Path.Combine(folder, "performance.json"))));
        }
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

    private static string Root()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "Harkbook.slnx")))
            folder = Path.GetDirectoryName(folder) ?? throw new DirectoryNotFoundException("The tests run inside the repository.");
        return folder;
    }
}
