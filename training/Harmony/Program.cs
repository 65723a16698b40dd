using Harkbook.Listening.Reading.Harmony;
using Harkbook.Training.Harmony;

var folders = args.Skip(1).Where(Directory.Exists).ToArray();
switch (args)
{
    case ["hear", ..]:
        foreach (var recording in folders.SelectMany(Recordings))
            Console.WriteLine((await HeardPiece.OfAsync(recording)).Name);
        return 0;
    case ["score", ..]:
        foreach (var folder in folders)
            Show(Path.GetFileName(folder), [.. (await PiecesAsync(folder)).Select(p => p.Read(HarmonyWeights.ForNetwork))]);
        return 0;
    case ["joined", ..]:
        foreach (var folder in folders)
            Show($"{Path.GetFileName(folder)}, pairs", [.. (await PiecesAsync(folder)).Chunk(2).Where(p => p.Length == 2).Select(p => WeighedPiece.Join(p).Read(HarmonyWeights.ForNetwork))]);
        return 0;
    case ["fit", var file, ..]:
        var pieces = new List<WeighedPiece>();
        foreach (var folder in folders)
            pieces.AddRange(await PiecesAsync(folder));
        HarmonyFit.Run(file, pieces, Console.Out);
        return 0;
    default:
        Console.Error.WriteLine("""
            For folders of recordings with their truth in NAME.jams:
            Harmony hear FOLDER...        hears notes and beats, kept beside the recordings; all else does so where it must
            Harmony score FOLDER...       chords, keys and how sure they are
            Harmony joined FOLDER...      the same of pieces joined in pairs, which change key where they meet
            Harmony fit FILE FOLDER...    fits models/harmony.json
            """);
        return 2;
}

static async Task<List<WeighedPiece>> PiecesAsync(string folder)
{
    var pieces = new List<WeighedPiece>();
    foreach (var recording in Recordings(folder))
        pieces.Add(WeighedPiece.Of(await HeardPiece.OfAsync(recording)));
    return pieces;
}

static IEnumerable<string> Recordings(string folder) => Directory.GetFiles(folder).Order(StringComparer.Ordinal)
    .Where(f => Path.GetExtension(f) is ".wav" or ".flac" && File.Exists(Path.ChangeExtension(f, ".jams")));

static void Show(string name, Scores[] scores)
{
    double Loss(IEnumerable<Judged> judged) => judged.ToArray() is { Length: > 0 } all ? CalibrationFit.LogLoss(all, 1, 0) : 0;
    Console.WriteLine($"{name}, {scores.Length}: key, root, majmin, sevenths, majmin with bass {string.Join(' ', Scores.Mean(scores).Select(m => m.ToString("0.000")))}; "
        + $"log loss of {scores.Sum(s => s.JudgedChords.Length)} chords {Loss(scores.SelectMany(s => s.JudgedChords)):0.000}, "
        + $"of {scores.Sum(s => s.JudgedKeys.Length)} keys {Loss(scores.SelectMany(s => s.JudgedKeys)):0.000}");
}
