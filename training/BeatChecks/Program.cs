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
    case ["bars", var csv, ..]:
        await RowsAsync(csv, withNotes: false, BarRows.Write);
        return 0;
    case ["sure", var csv, ..]:
        await RowsAsync(csv, withNotes: false, SureRows.Write);
        return 0;
    case ["halves", var csv, ..]:
        await RowsAsync(csv, withNotes: true, HalfRows.Write);
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
            BeatChecks bars OUT.csv FOLDER...    what bars.py fits
            BeatChecks sure OUT.csv FOLDER...    what sureness.py fits
            BeatChecks halves OUT.csv FOLDER...  what halves.py fits
            BeatChecks score FOLDER...           beats, downbeats, what is wrong with the wrong ones, how sure beats are; score-pulse: without notes
            """);
        return 2;
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
