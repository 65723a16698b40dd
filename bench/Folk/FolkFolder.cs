using System.Globalization;
using Harkbook.Bench.Outside;
using Harkbook.Listening.Interchange;

namespace Harkbook.Bench.Folk;

/// <summary>Makes a folder that ./harkbook eval can score: tunes of an ABC file, played by a <see cref="FolkBand"/>, with their truth beside them.</summary>
internal static class FolkFolder
{
    public static int Write(string abc, string into, double seconds)
    {
        Directory.CreateDirectory(into);
        var number = 0;
        foreach (var tune in AbcReader.ReadAll(File.ReadAllText(abc)))
        {
            var stem = Path.Combine(into, string.Create(CultureInfo.InvariantCulture, $"{++number:00}"));
            var band = new FolkBand(tune, number);
            band.WriteMidi(stem + ".mid");
            FluidSynth.Render(stem + ".mid", stem + ".wav", seconds);
            File.Delete(stem + ".mid");
            var truth = band.Truth(seconds);
            File.WriteAllText(stem + ".jams", JamsWriter.Write(truth, tune.Title));
            Console.WriteLine($"{stem}.wav: {tune.Title}, {string.Join(", ", truth.Keys.Select(k => k.Label))}, {truth.Beats.Length} beats, {truth.Chords.Length} chords");
        }
        return 0;
    }
}
