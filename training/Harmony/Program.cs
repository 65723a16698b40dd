using Harkbook.Training.Harmony;

var folders = args.Skip(1).Where(Directory.Exists).ToArray();
switch (args)
{
    case ["hear", ..]:
        foreach (var wave in folders.SelectMany(Waves))
        {
            await HeardPiece.OfAsync(wave);
            Console.WriteLine(wave);
        }
        return 0;
    default:
        return 2;
}

static IEnumerable<string> Waves(string folder) => Directory.GetFiles(folder, "*.wav").Order(StringComparer.Ordinal).Where(w => File.Exists(Path.ChangeExtension(w, ".jams")));
