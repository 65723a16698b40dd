using Harkbook.Listening;
using Harkbook.Listening.Checking.Notes;
using Harkbook.Listening.Checking.Weighing;
using Harkbook.Listening.Interchange;
using Harkbook.Units;

namespace Harkbook.Training.Checks;

/// <summary>Pieces of bench/pieces with the notes that they play: bands, drums and all.</summary>
internal static class AnnotatedPieces
{
    /// <summary>Notes that every so many are planted with errors.</summary>
    private const int Every = 3;

    public static async Task HearAsync(string folder)
    {
        foreach (var stem in Stems(folder).Where(s => !File.Exists(s + ".heard")))
        {
            await KeptHearing.MakeAsync(stem);
            Console.WriteLine(stem);
        }
    }

    public static IEnumerable<(string Piece, Annotation Truth, Hearing Hearing)> Of(string folder) => Stems(folder).Where(s => File.Exists(s + ".heard"))
        .Select(s => (Path.GetFileName(s), JamsReader.Read(s + ".jams"), KeptHearing.Read(s)));

    public static IEnumerable<Example> Examples(string piece, Annotation truth, Hearing hearing)
    {
        var offset = Cents.Between(Hertz.A440, hearing.ReferencePitch.Best).Value / 100;
        var starts = new HeardStarts(hearing.Evidence.Notes);
        List<WrittenNote> notes = [.. truth.Notes.Select(n => new WrittenNote((int)Math.Round(n.Midi - offset), n.Onset, n.End))];
        var (random, eighth) = (new Random(1), 30 / (truth.Tempo ?? 120));
        for (var i = 0; i < notes.Count; i += Every)
        {
            foreach (var example in NoteExamples.Of(starts, notes, new(notes[i].Midi, notes[i].Onset, notes[i].End), eighth, piece, random))
                yield return example;
        }
        foreach (var example in NoteExamples.Unwritten(starts, notes, hearing, notes.Min(n => n.Onset), notes.Max(n => n.End), piece))
            yield return example;
    }

    private static IEnumerable<string> Stems(string folder) =>
        Directory.Exists(folder) ? Directory.GetFiles(folder, "*.jams").Order(StringComparer.Ordinal).Select(f => f[..^5]) : [];
}
