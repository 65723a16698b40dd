using System.Globalization;
using Harkbook.Listening.Estimators.Beats.Rows;
using Harkbook.Training.BeatChecks;

HeardPiece.Weights = args.FirstOrDefault(a => a.EndsWith(".onnx", StringComparison.Ordinal));
// Pieces that the beat network's composer didn't make are few, and drawn so many times as often.
const int Others = 3;
var folders = args.Skip(1).Where(Directory.Exists).ToArray();
switch (args)
{
    case ["hear", ..]:
        await Task.WhenAll(folders.SelectMany(Recordings).Select(r => Task.Run(() => HeardPiece.OfAsync(r))));
        return 0;
    case ["keep", var into, ..]:
        await KeepAsync(into);
        return 0;
    case ["renew", var into, ..]:
        foreach (var kept in folders.Where(f => f != into).SelectMany(f => Directory.GetFiles(f, "*.evidence")))
            HeardPiece.Renew(kept, Path.Combine(into, Path.GetFileName(kept)));
        return 0;
    case ["fit", var json, ..]:
        return await FitAsync(json);
    case ["rows", ..]:
        foreach (var folder in folders)
            RowFit.Score(Path.GetFileName(folder.TrimEnd('/')), await PiecesAsync(folder, Model()), Model(), Console.Out, each: args.Contains("-v"));
        return 0;
    case ["sure", var csv, ..]:
        await RowsAsync(csv, SureRows.Write);
        return 0;
    case ["levels", var csv, ..]:
        await RowsAsync(csv, LevelTable.Write);
        return 0;
    case ["score", ..]:
        foreach (var folder in folders)
            await ScoreTable.WriteAsync(folder, Recordings(folder), Model(), Console.Out);
        return 0;
    default:
        Console.Error.WriteLine("""
            For folders of recordings with their truth in NAME.jams:
            A file NAME.onnx among the arguments: by these weights of the beat network; a MODEL.json: by these numbers.
            BeatChecks hear FOLDER...            hears beats and notes, kept beside the recordings; all else does so where it must
            BeatChecks keep INTO FOLDER...       writes what was heard, and the truth, into a folder without the sound
            BeatChecks renew INTO FOLDER...      writes kept evidence with the curves of the weights that ship
            BeatChecks sure OUT.csv [MODEL.json] FOLDER...     what sureness.py fits
            BeatChecks levels OUT.csv FOLDER...                what levels.py fits
            BeatChecks fit OUT.json IN.json FOLDER... ROUNDS HOPELESS   fits what the evidence counts, from IN.json on, on three pieces of four; folders of the beat network's own composer start with C
            BeatChecks rows [MODEL.json] FOLDER... [-v]        beats and downbeats of the best rows
            BeatChecks score [MODEL.json] FOLDER...            beats, downbeats, what is wrong with the wrong ones, how sure beats are
            """);
        return 2;
}

BeatModel Model(string? path = null)
{
    path ??= args.FirstOrDefault(a => a.EndsWith(".json", StringComparison.Ordinal) && File.Exists(a));
    return path is null ? BeatModel.Shipped : BeatModel.Read(File.ReadAllBytes(path));
}

async Task<List<FitPiece>> PiecesAsync(string folder, BeatModel model, bool known = false, Func<int, bool>? which = null)
{
    var pieces = await Task.WhenAll(Recordings(folder).Where((_, k) => which?.Invoke(k) ?? true).Select(r => Task.Run(async () => FitPiece.Of(await HeardPiece.OfAsync(r), model, known))));
    return [.. pieces.OfType<FitPiece>()];
}

async Task KeepAsync(string into)
{
    foreach (var folder in folders.Where(f => f != into))
    {
        var target = Directory.CreateDirectory(Path.Combine(into, Path.GetFileName(folder.TrimEnd('/')))).FullName;
        foreach (var recording in Recordings(folder))
        {
            var piece = await HeardPiece.OfAsync(recording);
            HeardFile.Write(Path.Combine(target, piece.Name + ".heard"), piece.Sound, piece.Notes);
            File.Copy(Path.ChangeExtension(recording, ".jams"), Path.Combine(target, piece.Name + ".jams"), overwrite: true);
        }
    }
}

async Task<int> FitAsync(string json)
{
    var start = args.First(a => a != json && a.EndsWith(".json", StringComparison.Ordinal));
    var (pieces, held) = (new List<FitPiece>(), new List<FitPiece>());
    foreach (var folder in folders)
    {
        var own = Path.GetFileName(folder).StartsWith('C');
        var some = await PiecesAsync(folder, Model(start), own, k => k % 4 != 3);
        pieces.AddRange(Enumerable.Repeat(some, own ? 1 : Others).SelectMany(p => p));
        held.AddRange(await PiecesAsync(folder, Model(start), which: k => k % 4 == 3));
    }
    var rounds = int.Parse(args.First(a => int.TryParse(a, out _)), CultureInfo.InvariantCulture);
    var hopeless = double.Parse(args[^1], CultureInfo.InvariantCulture);
    RowFit.Score("held out, before", held, Model(start), Console.Out, each: false);
    var (fitted, network) = RowFit.Fit(pieces, Model(start), RowFit.Network(start), rounds, hopeless, Console.Out);
    RowFit.Write(fitted, network, start, json);
    RowFit.Score("fitted on", [.. pieces.Distinct()], fitted, Console.Out, each: false);
    RowFit.Score("held out", held, fitted, Console.Out, each: false);
    return 0;
}

async Task RowsAsync(string csv, Action<HeardPiece, BeatModel, string, TextWriter> write)
{
    using var output = new StreamWriter(csv);
    foreach (var folder in folders)
    {
        foreach (var recording in Recordings(folder))
            write(await HeardPiece.OfAsync(recording), Model(), Path.GetFileName(folder), output);
    }
}

static IEnumerable<string> Recordings(string folder) => Directory.GetFiles(folder, "*.jams").Order(StringComparer.Ordinal)
    .Select(j => new[] { ".wav", ".flac", ".ogg" }.Select(e => Path.ChangeExtension(j, e)).FirstOrDefault(File.Exists) ?? Path.ChangeExtension(j, ".wav"));
