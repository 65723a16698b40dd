using Harkbook.Training.SecondInstrument;

const string Usage = "Usage: score WORKFOLDER PIECES SEED FONT.sf2 [FONT.sf2 ...]";
if (args.Length < 5 || args[0] != "score")
{
    Console.Error.WriteLine(Usage);
    return 1;
}
Directory.CreateDirectory(args[1]);
return DuetScore.Run([.. args[4..].Select(f => new FontPlayer(f, args[1]))], int.Parse(args[2]), int.Parse(args[3]), 24);
