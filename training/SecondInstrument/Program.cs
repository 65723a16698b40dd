using Harkbook.Training.SecondInstrument;

const string Usage = "Usage: duets|trios WORKFOLDER PIECES SEED FONT.sf2 [FONT.sf2 ...]\n       demo WORKFOLDER SONGBOOK";
if (args is ["demo", var work, var songbook])
{
    Directory.CreateDirectory(work);
    return await DemoScore.RunAsync(work, songbook);
}
if (args.Length < 5 || args[0] is not ("duets" or "trios"))
{
    Console.Error.WriteLine(Usage);
    return 1;
}
Directory.CreateDirectory(args[1]);
FontPlayer[] fonts = [.. args[4..].Select(f => new FontPlayer(f, args[1]))];
var (trios, seed) = (args[0] == "trios", int.Parse(args[3]));
var length = trios ? 32 : 24;
var pieces = Enumerable.Range(0, int.Parse(args[2])).Select(i =>
{
    var font = fonts[i / 2 % fonts.Length];
    var name = $"{(trios ? "trio-" : "")}{font.Name}-{seed}-{i}-{length}";
    return (name, PieceStore.Get(name, font, sound => trios ? Trio.Make(i, seed, font, length, sound) : Duet.Make(i, seed, font, length, sound)));
});
return PieceScore.Run(pieces, new(args[1]));
