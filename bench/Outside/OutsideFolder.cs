using Harkbook.Listening.Interchange;

namespace Harkbook.Bench.Outside;

/// <summary>Makes a folder that ./harkbook eval can score: renderings of MIDI files with their truth beside them.</summary>
internal static class OutsideFolder
{
    public static int Write(string midi, string into, double seconds) => Write(OutsidePiece.Steady(midi), into, seconds);

    /// <param name="every">Of the folder's pieces on a grid, every so many.</param>
    /// <param name="guitars">Of these only the guitars, where there are any.</param>
    public static int WriteOnGrid(string midi, string into, double seconds, int every, bool guitars)
    {
        Directory.CreateDirectory(into);
        var pieces = OutsidePiece.OnGrid(midi).Select(p => guitars ? p.Guitars(Path.Combine(into, p.Name + ".mid")) : p).OfType<OutsidePiece>();
        return Write(pieces.Where((_, i) => i % every == 0), into, seconds);
    }

    private static int Write(IEnumerable<OutsidePiece> pieces, string into, double seconds)
    {
        if (FluidSynth.Missing() is { Length: > 0 } missing)
        {
            Console.Error.WriteLine($"Not installed: {string.Join(' ', missing)}. On Debian: sudo apt-get install {string.Join(' ', missing)}");
            return 3;
        }
        Directory.CreateDirectory(into);
        foreach (var piece in pieces)
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
