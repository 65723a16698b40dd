using Harkbook.Listening.Interchange;

namespace Harkbook.Bench.Outside;

/// <summary>Makes a folder that ./harkbook eval can score: renderings of MIDI files with their truth beside them.</summary>
internal static class OutsideFolder
{
    public static int Write(string midi, string into, double seconds)
    {
        if (FluidSynth.Missing() is { Length: > 0 } missing)
        {
            Console.Error.WriteLine($"Not installed: {string.Join(' ', missing)}. On Debian: sudo apt-get install {string.Join(' ', missing)}");
            return 3;
        }
        Directory.CreateDirectory(into);
        foreach (var piece in OutsidePiece.Steady(midi))
        {
            var stem = Path.Combine(into, piece.Name);
            FluidSynth.Render(piece.Path, stem + ".wav", seconds);
            var truth = MidiTruth.Of(piece.Path, seconds);
            File.WriteAllText(stem + ".jams", JamsWriter.Write(truth, piece.Name));
            Console.WriteLine($"{stem}.wav: {truth.Keys.FirstOrDefault()?.Label ?? "no plain key"}, {truth.Beats.Length} beats, {truth.Chords.Length} plain chords");
        }
        return 0;
    }
}
