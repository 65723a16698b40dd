using Harkbook.Training.SecondInstrument;

const string Usage = """
    Usage: duets|trios WORKFOLDER PIECES SEED FONT.sf2 [FONT.sf2 ...]
           demo WORKFOLDER SONGBOOK
           recordings WORKFOLDER FOLDER
    """;

switch (args)
{
    case ["demo", var work, var songbook]:
        Directory.CreateDirectory(work);
        return await DemoScore.RunAsync(work, songbook);
    case ["recordings", var work, var folder]:
        Directory.CreateDirectory(work);
        return RecordingScore.Run(folder, new(work));
    case ["duets" or "trios", var work, var count, var seed, .. { Length: > 0 } fonts]:
        Directory.CreateDirectory(work);
        return PieceScore.Run(Pieces(work, args[0] == "trios", int.Parse(count), int.Parse(seed), fonts), new(work));
    default:
        Console.Error.WriteLine(Usage);
        return 1;
}

static IEnumerable<(string Name, Piece Piece)> Pieces(string work, bool trios, int count, int seed, string[] paths)
{
    FontPlayer[] fonts = [.. paths.Select(f => new FontPlayer(f, work))];
    var length = trios ? 32 : 24;
    return Enumerable.Range(0, count).Select(i =>
    {
        var font = fonts[i / 2 % fonts.Length];
        var name = $"{(trios ? "trio-" : "")}{font.Name}-{seed}-{i}-{length}";
        return (name, PieceStore.Get(name, font, sound => trios ? Trio.Make(i, seed, font, length, sound) : Duet.Make(i, seed, font, length, sound)));
    });
}
