using Harkbook.Training.SecondInstrument;

const string Usage = "Usage: fit|score|misses WORKFOLDER WEIGHTSFOLDER PIECES SEED FONT.sf2 [FONT.sf2 ...]";
if (args.Length < 6)
{
    Console.Error.WriteLine(Usage);
    return 1;
}
Directory.CreateDirectory(args[1]);
var fonts = args[5..].Select(f => new FontPlayer(f, args[1])).ToArray();
var (pieces, seed) = (int.Parse(args[3]), int.Parse(args[4]));
return args[0] switch
{
    "fit" => Fit.Run(fonts, pieces, seed, 24, args[2]),
    "misses" => Misses.Run(fonts, pieces, seed, 24),
    "score" => DuetScore.Run(fonts, pieces, seed, 24, args[2]),
    _ => 1,
};
