using System.Globalization;
using Harkbook.Listening.Estimators.Beats.Rows;
using Harkbook.Training.BeatChecks;

HeardPiece.Weights = args.FirstOrDefault(a => a.EndsWith(".onnx", StringComparison.Ordinal));
var folders = args.Skip(1).Where(Directory.Exists).ToArray();
switch (args)
{
    case ["hear", ..]:
        await EachAsync(withNotes: true, (_, _) => { });
        return 0;
    case ["pulse", ..]:
        await EachAsync(withNotes: false, (_, _) => { });
        return 0;
    case ["fit", var json, ..]:
        return await FitAsync(json);
    case ["rows", ..]:
        foreach (var folder in folders)
            RowFit.Score(Path.GetFileName(folder.TrimEnd('/')), await PiecesAsync(folder, Model()), Model(), Console.Out, each: args.Contains("-v"));
        return 0;
    case ["sure", var csv, ..]:
        await RowsAsync(csv, withNotes: true, SureRows.Write);
        return 0;
    case ["score" or "score-pulse", ..]:
        foreach (var folder in folders)
            await ScoreTable.WriteAsync(folder, Waves(folder), withNotes: args[0] == "score", Console.Out);
        return 0;
    default:
        Console.Error.WriteLine("""
            For folders of NAME.wav with their truth in NAME.jams:
            A file NAME.onnx among the arguments: by these weights of the beat network.
            BeatChecks hear FOLDER...            hears beats and notes, kept beside the recordings; all else does so where it must
            BeatChecks pulse FOLDER...           hears beats alone
            BeatChecks sure OUT.csv FOLDER...    what sureness.py fits
            BeatChecks fit OUT.json IN.json FOLDER... ROUNDS   fits what the evidence counts, from IN.json on; folders of the beat network's own composer start with C
            BeatChecks rows [MODEL.json] FOLDER... [-v]        beats and downbeats of the best rows
            BeatChecks score FOLDER...           beats, downbeats, what is wrong with the wrong ones, how sure beats are; score-pulse: without notes
            """);
        return 2;
}

BeatModel Model(string? path = null)
{
    path ??= args.FirstOrDefault(a => a.EndsWith(".json", StringComparison.Ordinal) && File.Exists(a));
    return path is null ? BeatModel.Shipped : BeatModel.Read(File.ReadAllBytes(path));
}

async Task<List<FitPiece>> PiecesAsync(string folder, BeatModel model)
{
    var waves = Waves(folder).Where(w => File.Exists(Path.ChangeExtension(w, ".notes")));
    var known = args[0] == "fit" && Path.GetFileName(folder).StartsWith('C');
    var pieces = await Task.WhenAll(waves.Select(w => Task.Run(async () => FitPiece.Of(await HeardPiece.OfAsync(w, withNotes: true), model, known))));
    return [.. pieces.OfType<FitPiece>()];
}

async Task<int> FitAsync(string json)
{
    var pieces = new List<FitPiece>();
    foreach (var folder in folders)
        pieces.AddRange(await PiecesAsync(folder, Model(args.First(a => a != json && a.EndsWith(".json", StringComparison.Ordinal)))));
    var start = args.First(a => a != json && a.EndsWith(".json", StringComparison.Ordinal));
    var rounds = int.Parse(args.First(a => int.TryParse(a, out _)), CultureInfo.InvariantCulture);
    var (fitted, network) = RowFit.Fit(pieces, Model(start), RowFit.Network(start), rounds, Console.Out);
    RowFit.Write(fitted, network, json);
    RowFit.Score("all", pieces, fitted, Console.Out, each: false);
    return 0;
}

async Task RowsAsync(string csv, bool withNotes, Action<HeardPiece, string, TextWriter> write)
{
    using var output = new StreamWriter(csv);
    await EachAsync(withNotes, (piece, folder) => write(piece, Path.GetFileName(folder), output));
}

async Task EachAsync(bool withNotes, Action<HeardPiece, string> use)
{
    foreach (var folder in folders)
    {
        foreach (var wave in Waves(folder))
            use(await HeardPiece.OfAsync(wave, withNotes), folder);
    }
}

static IEnumerable<string> Waves(string folder) => Directory.GetFiles(folder, "*.wav").Order(StringComparer.Ordinal);
