using Harkbook.Music.Analysis.Harmony;
using Harkbook.Music.Analysis.Harmony.Readings;
using Harkbook.Music.Songs;

namespace Harkbook.Examples;

/// <summary>Reads every chord of a song in its key: bar, chord, Roman numeral, what it does and why it is read so.</summary>
public static class ReadHarmony
{
    public static void Run(string path, TextWriter output)
    {
        var document = SongText.Parse(File.ReadAllText(path), path);
        if (document.Song is not { } song)
        {
            foreach (var diagnostic in document.Diagnostics)
                output.WriteLine(diagnostic);
            return;
        }
        foreach (var (place, reading, _) in HarmonicAnalysis.Of(song).Sounding)
            output.WriteLine($"{place.Bar,3}  {reading.Chord,-8} {reading.Numeral,-8} {NumeralSpeech.Of(reading.Function),-14} {string.Join("; ", reading.Reasons)}");
    }
}
